"""Sources on fan tests, leakage, moist air, sun and weather."""

from __future__ import annotations

from seamwright.sources.record import Source

AIR = (
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
)
