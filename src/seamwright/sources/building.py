"""Sources on panels, joints, drawings, models and cutting."""

from __future__ import annotations

from seamwright.sources.record import Source

BUILDING = (
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
)
