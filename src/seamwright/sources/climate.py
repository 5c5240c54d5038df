"""Sources on climates: zones, typical years, the generated year, sun on faces, rooms."""

from __future__ import annotations

from seamwright.sources.record import Source

CLIMATE = (
    Source(
        key="doe-county-zones",
        citation="Table of climate zones by county for ASHRAE 169 and the IECC, editions 2004 to "
        "2018 and of 2021, by a national laboratory of the U.S. Department of Energy (Guide to "
        "Determining Climate Zones by County; title from memory).",
        used_for="the zone of a county in both editions",
    ),
    Source(
        key="ashrae-90-1-2010",
        citation="ANSI/ASHRAE/IES Standard 90.1-2010, normative appendix B, table B-4 (as coded in "
        "a public weather library).",
        used_for="degree days at which climate zones begin",
    ),
    Source(
        key="rymes-myers-2001",
        citation="M. D. Rymes, D. R. Myers, Mean preserving algorithm for smoothly interpolating "
        "averaged data, Solar Energy 71 (2001) 225-231.",
        used_for="a smooth year through twelve monthly means",
    ),
    Source(
        key="erbs-1983",
        citation="D. G. Erbs, S. A. Klein, W. A. Beckman, Estimation of degree-days and ambient "
        "temperature bin data from monthly-average temperatures, ASHRAE Journal 25 (1983) 60-65 "
        "(seen second-hand).",
        used_for="the daily course of the temperature in a generated year",
    ),
    Source(
        key="collares-pereira-rabl-1979",
        citation="M. Collares-Pereira, A. Rabl, The average distribution of solar radiation, Solar "
        "Energy 22 (1979) 155-164 (seen second-hand).",
        used_for="the daily course of the sun in a generated year",
    ),
    Source(
        key="hay-davies-1980",
        citation="J. E. Hay, J. A. Davies, Calculation of the solar radiation incident on an "
        "inclined surface, First Canadian Solar Radiation Data Workshop, 1980 (as coded in pvlib).",
        used_for="the bright sky about the sun on tilted faces",
    ),
    Source(
        key="en-15026",
        citation="EN 15026:2007, Hygrothermal performance of building components and building "
        "elements, assessment of moisture transfer by numerical simulation, annex C (from memory).",
        used_for="the air of rooms from the outdoor air",
    ),
)
