"""Sources on heat and moisture in building parts, mold and decay."""

from __future__ import annotations

from seamwright.sources.record import Source

MOISTURE = (
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
        key="philip-1957",
        citation="J. R. Philip, The theory of infiltration: 4. Sorptivity and algebraic "
        "infiltration equations, Soil Science 84 (1957), 257 to 264; solved as J. R. Philip and "
        "J. H. Knight, Soil Science 117 (1974), 1 to 13 (from memory).",
        used_for="checking how a wetted face draws in rain",
    ),
    Source(
        key="iso-15148",
        citation="ISO 15148:2002, Hygrothermal performance of building materials and products, "
        "determination of water absorption coefficient by partial immersion (from memory).",
        used_for="what the water absorption of a board means",
    ),
    Source(
        key="wood-handbook",
        citation="USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010) and "
        "FPL-GTR-282 (2021): equation 4-5 (seen); table 4-2, the table of moisture contents of "
        "panels and conductivity (from memory).",
        used_for="moisture content of wood and boards",
    ),
    Source(
        key="osb-industry-sheet",
        citation="A public industry sheet on oriented strand board: 5, 10 and 15 % moisture "
        "content at 30, 65 and 85 % relative humidity and 20 °C.",
        used_for="sorption of oriented strand board",
    ),
    Source(
        key="building-science-osb",
        citation="Columns of building science and American board data on the permeance of oriented "
        "strand board: about 0.7 perm by the dry cup and 2 by the wet at 11 mm (from memory; that "
        "it rises with humidity less than plywood's was seen).",
        used_for="vapor resistance of oriented strand board",
    ),
    Source(
        key="kuenzel-1995",
        citation="H. M. Künzel, Simultaneous Heat and Moisture Transport in Building Components, "
        "Fraunhofer IRB Verlag, 1995 (from memory).",
        used_for="sorption and liquid transport from few figures",
    ),
    Source(
        key="hukka-viitanen-1999",
        citation="A. Hukka, H. A. Viitanen, A mathematical model of mould growth on wooden "
        "material, Wood Science and Technology 33 (1999) 475-485 (coefficients seen second-hand).",
        used_for="mold index",
    ),
    Source(
        key="ojanen-2010",
        citation="T. Ojanen, H. Viitanen, R. Peuhkuri, K. Lähdesmäki, J. Vinha, K. Salminen, Mold "
        "Growth Modeling of Building Structures Using Sensitivity Classes of Materials, ASHRAE "
        "Buildings XI, 2010 (growth classes seen second-hand, decline classes from memory).",
        used_for="mold index by class of material",
    ),
    Source(
        key="viitanen-2010",
        citation="H. Viitanen, T. Toratti, L. Makkonen, R. Peuhkuri, T. Ojanen, L. Ruokolainen, J. "
        "Räisänen, Towards modelling of decay risk of wooden materials, European Journal of Wood "
        "and Wood Products 68 (2010) 303-313 (equations seen second-hand).",
        used_for="decay of wood",
    ),
    Source(
        key="ashrae-160",
        citation="ANSI/ASHRAE Standard 160, Criteria for Moisture-Control Design Analysis in "
        "Buildings: 2009, 30-day running mean below 80 % between 5 and 40 °C (seen in the abstract "
        "of ASTM STP 1599, 2017); 2016, mold index at most 3, and 1 % of the rain on a wall behind "
        "its cladding (from memory).",
        used_for="criterion for mold; rain behind a cladding",
    ),
    Source(
        key="irc-r702-7",
        citation="International Residential Code, 2021, R702.7, vapor retarder classes and where "
        "they are required (seen in public summaries; the prohibitions differ between them).",
        used_for="classes of vapor retarders",
    ),
    Source(
        key="oregon-r318-2",
        citation="Oregon Residential Specialty Code, R318.2, as enforced by a city: framing at "
        "most 19 % moisture content before interior finish.",
        used_for="limit of wood moisture",
    ),
    Source(
        key="smulski-1996",
        citation="S. Smulski, Building Materials and Wood Technology, University of Massachusetts, "
        "1996: most fungi need at least 20 % moisture in wood (seen second-hand).",
        used_for="limit of wood moisture",
    ),
    Source(
        key="rowell-ibach-2000",
        citation="R. M. Rowell, R. E. Ibach, Improvements in decay resistance based on moisture "
        "exclusion, Molecular Crystals and Liquid Crystals 353 (2000) 23-33: serious decay above "
        "fiber saturation, on average 30 % (abstract seen).",
        used_for="limit of wood moisture",
    ),
    Source(
        key="iea-annex-24-task-3",
        citation="IEA Annex 24, Heat, Air and Moisture Transfer in Insulated Envelope Parts, task "
        "3, Material Properties (M. K. Kumaran, 1996), as a public text file of the Architectural "
        "Institute of Japan: concrete.",
        used_for="concrete",
    ),
    Source(
        key="burch-1992",
        citation="D. M. Burch, W. C. Thomas, A. H. Fanney, Water Vapor Permeability Measurements "
        "of Common Building Materials, ASHRAE Transactions 98, 1992: between 7 and 24 °C "
        "temperature hardly matters (abstract seen).",
        used_for="one vapor factor for all temperatures",
    ),
    Source(
        key="panel-permeability-page",
        citation="Public page of a trade association of panel makers on the permeability of "
        "plywood: about 1 perm at 50 % humidity, up to ten times that at 90 %, after NIST.",
        used_for="checking how plywood opens as it grows wet",
    ),
)
