"""The register of standards, papers and handbooks that figures and methods rest on.

Three marks say how far a number can be trusted: a source of this register, ``common practice, no
source`` for a fact of the trade, and ``from memory`` where nobody here has seen it in print.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

COMMON_PRACTICE = "common practice, no source"
FROM_MEMORY = "from memory"


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """One standard, paper, handbook or dataset, and what is taken from it."""

    key: str
    citation: str
    used_for: str


_ALL = (
    Source(
        key="nist-sp811",
        citation="NIST Special Publication 811, Guide for the Use of the International System of "
        "Units, 2008, appendix B: 1 in = 0.0254 m exactly.",
        used_for="units",
    ),
    Source(
        key="basc-sip-seams",
        citation="Building America Solution Center (Pacific Northwest National Laboratory), Air "
        "Sealing Structural Insulated Panel (SIP) Seams.",
        used_for="bead counts (up to six to a joint, up to eight at the ridge), strips centered "
        "on the seam, working upward on roofs",
    ),
    Source(
        key="ashrae-169",
        citation="ANSI/ASHRAE Standard 169, Climatic Data for Building Design Standards; IECC "
        "table C301.1, editions to 2018 and from 2021.",
        used_for="climate zones",
    ),
    Source(
        key="sipa-juneau-2002",
        citation="Structural Insulated Panel Association, Report on the Juneau, Alaska Roof Issue, "
        "February 2002.",
        used_for="air moving inside joints to the ridge, why channels are dammed",
    ),
    Source(
        key="gilmore-gomory-1961",
        citation="P. C. Gilmore, R. E. Gomory, A Linear Programming Approach to the Cutting-Stock "
        "Problem, Operations Research 9 (1961) 849-859.",
        used_for="cutting strips from rolls",
    ),
    Source(
        key="or-library-u120",
        citation="J. E. Beasley, OR-Library, file binpack1 (Journal of the Operational Research "
        "Society 41 (1990) 1069-1072); class u120 of E. Falkenauer, Journal of Heuristics 2 (1996) "
        "5-30.",
        used_for="checking that cutting from rolls reaches published optima",
    ),
    Source(
        key="jacobson-2013",
        citation="A. Jacobson, L. Kavan, O. Sorkine-Hornung, Robust Inside-Outside Segmentation "
        "using Generalized Winding Numbers, ACM Transactions on Graphics 32 (2013) 33.",
        used_for="which side of a panel is inside the air boundary",
    ),
    Source(
        key="iso-16739",
        citation="ISO 16739-1, Industry Foundation Classes (IFC) for data sharing.",
        used_for="reading and writing building models",
    ),
    Source(
        key="griffith-1916",
        citation="I. S. Griffith, Carpentry, 1916, sections 20 and 23 with figures 57 to 60: hip "
        "and valley rafters as the diagonal of a square prism, 17 in to 12 in of common run.",
        used_for="lengths of hips and valleys that the roof is checked against",
    ),
    Source(
        key="navedtra-14044",
        citation="US Navy training manual NAVEDTRA 14044, Builder, volume 2, figure 2-17: the "
        "rafter table of the steel framing square and the bridge measure.",
        used_for="lengths of common rafters that the roof is checked against",
    ),
    Source(
        key="okabe-ito-2008",
        citation="M. Okabe, K. Ito, Color Universal Design: how to make figures and presentations "
        "that are friendly to colorblind people, 2002, revised 2008.",
        used_for="drawing colors",
    ),
    Source(
        key="ghiaus-a06",
        citation="C. Ghiaus, Dynamic Models for Building Energy Management, open textbook "
        "notebook, tutorial A06: raw readings and fit of a fan test.",
        used_for="checking the fan-test analysis",
    ),
    Source(
        key="iso-9972",
        citation="ISO 9972:2015, Determination of air permeability of buildings, fan "
        "pressurization method (from memory).",
        used_for="fan tests",
    ),
    Source(
        key="astm-e779",
        citation="ASTM E779, Standard Test Method for Determining Air Leakage Rate by Fan "
        "Pressurization (from memory).",
        used_for="fan tests",
    ),
    Source(
        key="astm-e1827",
        citation="ASTM E1827, Standard Test Methods for Determining Airtightness of Buildings "
        "Using an Orifice Blower Door (from memory).",
        used_for="fan tests at one or two pressures",
    ),
    Source(
        key="cgsb-149-10",
        citation="CAN/CGSB-149.10, Determination of the Airtightness of Building Envelopes by the "
        "Fan Depressurization Method (from memory).",
        used_for="the equivalent leakage area at 10 Pa",
    ),
    Source(
        key="jcgm-100",
        citation="JCGM 100:2008, Evaluation of measurement data, Guide to the expression of "
        "uncertainty in measurement, clause 5.1 (from memory).",
        used_for="adding errors of readings, instruments and volume",
    ),
    Source(
        key="us-standard-atmosphere",
        citation="U.S. Standard Atmosphere, 1976, NOAA, NASA and USAF (from memory).",
        used_for="air pressure from elevation in fan tests",
    ),
    Source(
        key="ashrae-fundamentals-1",
        citation="ASHRAE Handbook Fundamentals, 2017, chapter 1, Psychrometrics: equations 5 and 6 "
        "(R. W. Hyland, A. Wexler), 9a, 20, 26, 30, 33 and 35, tables 2 and 3.",
        used_for="moist air",
    ),
    Source(
        key="iapws-saturation",
        citation="IAPWS R7-97(2012), region 4, and R14-08(2011), sublimation pressure.",
        used_for="checking saturation pressures and dew points",
    ),
    Source(
        key="meeus-1998",
        citation="J. Meeus, Astronomical Algorithms, 2nd edition, 1998, chapter 25, in the form of "
        "the NOAA solar calculation sheets; checked against I. Reda, A. Andreas, Solar Position "
        "Algorithm, NREL/TP-560-34302, as coded in the open library pvlib.",
        used_for="sun position",
    ),
    Source(
        key="erbs-1982",
        citation="D. G. Erbs, S. A. Klein, J. A. Duffie, Solar Energy 28 (1982) 293-302; with B. "
        "Haurwitz, Journal of Meteorology 2 (1945) 154-166; F. Kasten, G. Czeplak, Solar Energy 24 "
        "(1980) 177-189; B. Y. H. Liu, R. C. Jordan, Solar Energy 7 (1963) 53-74.",
        used_for="sun on a face",
    ),
    Source(
        key="li-2017",
        citation="M. Li, Y. Jiang, C. F. M. Coimbra, Solar Energy 144 (2017) 40-48, refitting P. "
        "Berdahl, M. Martin, Solar Energy 32 (1984) 663-664 (seen second-hand).",
        used_for="radiation of the clear sky",
    ),
    Source(
        key="walton-1983",
        citation="G. N. Walton, Thermal Analysis Research Program Reference Manual, NBSIR 83-2655, "
        "1983, page 21, after G. Clark, C. Allen, 1978 (seen second-hand).",
        used_for="radiation of the cloudy sky",
    ),
    Source(
        key="mcadams-1954",
        citation="W. H. McAdams, Heat Transmission, 3rd edition, 1954 (seen second-hand).",
        used_for="heat transfer by wind",
    ),
    Source(
        key="iso-15927-3",
        citation="ISO 15927-3, Calculation of a driving rain index for vertical surfaces from "
        "hourly wind and rain data (from memory).",
        used_for="rain on walls",
    ),
    Source(
        key="iso-8502-4",
        citation="ISO 8502-4, Guidance on the estimation of the probability of condensation prior "
        "to paint application: a coatings rule, borrowed here for strips and sealants.",
        used_for="3 °C between a surface and the dew point",
    ),
    Source(
        key="ashrae-hof-2001",
        citation="ASHRAE Handbook of Fundamentals, 2001, chapter 26, Ventilation and Infiltration "
        "(2005, chapter 27): effective leakage areas (from memory, in part seen in a list of "
        "NIST), basic and enhanced infiltration models (seen).",
        used_for="leakage before a test, infiltration",
    ),
    Source(
        key="ashrae-62-2",
        citation="ANSI/ASHRAE Standard 62.2, Ventilation and Acceptable Indoor Air Quality in "
        "Residential Buildings, editions from 2013 (rate seen in a public script; infiltration "
        "credit of 2016 from memory).",
        used_for="fresh air that a tight house must have",
    ),
    Source(
        key="nist-leakage-list",
        citation="National Institute of Standards and Technology, list of residential leakage "
        "areas at 4 Pa (archived 2008), after the ASHRAE Handbook of Fundamentals.",
        used_for="leakage before a test",
    ),
    Source(
        key="basc-rough-openings",
        citation="Building America Solution Center (Pacific Northwest National Laboratory), Air "
        "Sealing Window and Door Rough Openings.",
        used_for="leakage around windows and doors before a test",
    ),
    Source(
        key="panel-house-reports",
        citation="Fan tests of panel houses told on public pages of consultants and builders in "
        "the United Kingdom: 0.47 and 0.61 1/h before windows, 0.69 m³/(h·m²) (read there, not in "
        "a paper).",
        used_for="whether the forecast is of the right size",
    ),
    Source(
        key="iecc-r402",
        citation="International Energy Conservation Code, R402.4.1.2 (2012 to 2018), R402.4.1.3 "
        "(2021), R402.5.1.3 (2024, from memory), C402.5.",
        used_for="limits of air leakage",
    ),
    Source(
        key="nrel-tmy3",
        citation="S. Wilcox, W. Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008.",
        used_for="typical years of weather",
    ),
    Source(
        key="daniels-1954",
        citation="H. E. Daniels, Saddlepoint Approximations in Statistics, Annals of Mathematical "
        "Statistics 25 (1954) 631-650 (from memory).",
        used_for="tying the leaks of all places to a fan test in the leak hunt",
    ),
    Source(
        key="iso-10211",
        citation="ISO 10211:2017, Thermal bridges in building construction, heat flows and surface "
        "temperatures, detailed calculations; validation cases 1 and 2 of its annex (geometry, "
        "conductivities and values seen second-hand, rules of clause 5 from memory).",
        used_for="heat through the section of a joint",
    ),
    Source(
        key="corner-shape-factor",
        citation="Conduction shape factor of a square corner between isothermal faces, 0.559 by "
        "conformal mapping (0.54 in handbooks of heat transfer): F. P. Incropera, D. P. DeWitt, "
        "Fundamentals of Heat and Mass Transfer, table of shape factors (seen second-hand).",
        used_for="checking conduction around corners",
    ),
    Source(
        key="iso-6946",
        citation="ISO 6946:2017, Building components and building elements, thermal resistance and "
        "thermal transmittance (surface resistances seen second-hand, 0.10 from memory).",
        used_for="U-values of panels, surface resistances, air layers",
    ),
    Source(
        key="iso-13788",
        citation="ISO 13788:2012, Internal surface temperature to avoid critical surface humidity "
        "and interstitial condensation (formulas of annex E seen second-hand, rules from memory).",
        used_for="monthly condensation and drying, temperature factor against mold",
    ),
    Source(
        key="iso-14683",
        citation="ISO 14683:2017 and ISO 13789:2017, linear thermal transmittance and systems of "
        "dimensions (from memory).",
        used_for="linear thermal transmittance of joints",
    ),
    Source(
        key="iso-10456",
        citation="ISO 10456:2007, Building materials and products, tabulated design values, tables "
        "3 to 5 (from memory).",
        used_for="conductivity and vapor resistance of materials",
    ),
    Source(
        key="ashrae-hof-2005-25",
        citation="ASHRAE Handbook of Fundamentals, 2005, chapter 25, Thermal and Water Vapor "
        "Transmission Data (public copy of the table).",
        used_for="conductivity of foams and boards",
    ),
    Source(
        key="annex-24-data",
        citation="Material data of IEA Annex 24 and ASHRAE RP-1018 as carried by a public "
        "energy-simulation library (seen second-hand).",
        used_for="conductivity and vapor resistance of materials",
    ),
    Source(
        key="kolisch-sprecher-1997",
        citation="R. Kolisch, A. Sprecher, PSPLIB - A project scheduling problem library, European "
        "Journal of Operational Research 96 (1997) 205-216, set j30; its list of optima (seen "
        "second-hand in public collections of the library).",
        used_for="checking the plan of days against proven optima",
    ),
    Source(
        key="osha-1926-501",
        citation="29 CFR 1926.501-503, Fall protection.",
        used_for="cautions",
    ),
)

SOURCES: Mapping[str, Source] = MappingProxyType({source.key: source for source in _ALL})


def cited(keys: Iterable[str]) -> tuple[Source, ...]:
    """Return the sources with these keys, each once, in the order of the register.

    Raises KeyError for a key that is not in the register: a citation must lead somewhere.
    """
    wanted = set(keys)
    unknown = wanted - set(SOURCES)
    if unknown:
        raise KeyError(", ".join(sorted(unknown)))
    return tuple(source for source in _ALL if source.key in wanted)
