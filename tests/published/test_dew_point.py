"""Saturation, dew and frost points, and moist air against printed and recomputed tables.

`PRINTED` is ASHRAE Handbook Fundamentals 2017, chapter 1, table 3, and `PRINTED_AIR` its table 2,
as seen in print. `SATURATION` and `DEW` were computed apart from this package from equations 5 and
6 of that chapter, from the IAPWS releases, and from ISO 13788:2012, annex E: they are references,
not published tables. The printed table 3 follows the IAPWS values, not the chapter's own
equations, by up to 300 parts in a million; that is the tolerance. ISO 13788 lies 0.07 to 0.25 %
low between 0 and 50 °C.
"""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.climate.moist_air import (
    condensation_point,
    dew_point,
    enthalpy,
    frost_point,
    humidity_ratio,
    relative_humidity,
    saturation_over_ice,
    saturation_pressure,
    specific_volume,
    vapor_pressure,
    wet_bulb,
)

PRINTED = {-60: 1.08, -20: 103.24, -5: 401.74, 5: 872.6, 25: 3169.7, 50: 12351.3, 100: 101418.0,
           150: 476101.4}  # fmt: skip

# °C: saturated humidity ratio kg/kg and enthalpy kJ/kg at 101325 Pa; the enthalpies at ±50 only
PRINTED_AIR = {-50: 0.0000243, -20: 0.0006373, -5: 0.0024863, 5: 0.005425, 25: 0.020173,
               50: 0.086863}  # fmt: skip
PRINTED_HEAT = {-20: -18.542, -5: 1.164, 5: 18.639, 25: 76.504, 50: 275.353}

# °C; ASHRAE equations, IAPWS, ISO 13788 in Pa
SATURATION = [
    (-40, 12.8452, 12.8412, 12.6040),
    (-35, 22.3509, 22.3442, 22.0364),
    (-30, 38.0157, 38.0051, 37.6244),
    (-25, 63.2891, 63.2736, 62.8260),
    (-20, 103.2604, 103.2390, 102.7399),
    (-15, 165.3005, 165.2737, 164.7449),
    (-10, 259.9029, 259.8738, 259.3332),
    (-5, 401.7641, 401.7410, 401.1810),
    (-3, 476.0574, 476.0408, 475.4579),
    (-2, 517.7168, 517.7047, 517.1041),
    (-1, 562.6715, 562.6649, 562.0412),
    (0, 611.2129, 611.1535, 610.5000),
    (1, 657.0717, 657.0880, 656.3839),
    (2, 705.9544, 705.9879, 705.2890),
    (3, 758.0312, 758.0824, 757.3847),
    (5, 872.4867, 872.5749, 871.8645),
    (10, 1227.9953, 1228.1839, 1227.3099),
    (15, 1705.4478, 1705.7449, 1704.4073),
    (20, 2338.8037, 2339.2148, 2336.9511),
    (25, 3169.2165, 3169.7469, 3165.9201),
    (30, 4246.0302, 4246.6883, 4240.5051),
    (35, 5627.8194, 5628.6201, 5619.1973),
    (40, 7383.4600, 7384.4275, 7370.9277),
    (45, 9593.2199, 9594.3888, 9576.2496),
    (50, 12349.8565, 12351.2704, 12328.5545),
]

# °C, relative humidity (over ice below 0 °C), vapor pressure Pa, dew or frost point °C (IAPWS),
# the same by ISO 13788
DEW = [
    (-10, 0.2, 51.975, -26.9537, -26.8941),
    (-10, 0.3, 77.962, -22.8924, -22.8520),
    (-10, 0.4, 103.950, -19.9285, -19.9001),
    (-10, 0.5, 129.937, -17.5806, -17.5605),
    (-10, 0.6, 155.924, -15.6295, -15.6155),
    (-10, 0.7, 181.912, -13.9564, -13.9471),
    (-10, 0.8, 207.899, -12.4893, -12.4838),
    (-10, 0.9, 233.886, -11.1813, -11.1788),
    (-10, 0.95, 246.880, -10.5764, -10.5752),
    (0, 0.2, 122.231, -18.2282, -18.1953),
    (0, 0.3, 183.346, -13.8705, -13.8505),
    (0, 0.4, 244.461, -10.6868, -10.6740),
    (0, 0.5, 305.577, -8.1626, -8.1544),
    (0, 0.6, 366.692, -6.0636, -6.0585),
    (0, 0.7, 427.807, -4.2626, -4.2596),
    (0, 0.8, 488.923, -2.6826, -2.6810),
    (0, 0.9, 550.038, -1.2733, -1.2726),
    (0, 0.95, 580.596, -0.6214, -0.6211),
    (5, 0.2, 174.515, -14.4091, -14.3848),
    (5, 0.3, 261.772, -9.9180, -9.9039),
    (5, 0.4, 349.030, -6.6352, -6.6264),
    (5, 0.5, 436.287, -4.0315, -4.0257),
    (5, 0.6, 523.545, -1.8657, -1.8617),
    (5, 0.7, 610.802, -0.0070, -0.0039),
    (5, 0.8, 698.060, 1.8421, 1.8448),
    (5, 0.9, 785.317, 3.4988, 3.4999),
    (5, 0.95, 828.946, 4.2669, 4.2674),
    (10, 0.2, 245.637, -10.6330, -10.6164),
    (10, 0.3, 368.455, -6.0079, -5.9987),
    (10, 0.4, 491.274, -2.6255, -2.6197),
    (10, 0.5, 614.092, 0.0647, 0.0709),
    (10, 0.6, 736.910, 2.6012, 2.6045),
    (10, 0.7, 859.729, 4.7876, 4.7892),
    (10, 0.8, 982.547, 6.7134, 6.7141),
    (10, 0.9, 1105.365, 8.4374, 8.4375),
    (10, 0.95, 1166.775, 9.2368, 9.2369),
    (15, 0.2, 341.149, -6.8988, -6.8893),
    (15, 0.3, 511.723, -2.1389, -2.1344),
    (15, 0.4, 682.298, 1.5235, 1.5269),
    (15, 0.5, 852.872, 4.6730, 4.6737),
    (15, 0.6, 1023.447, 7.3077, 7.3070),
    (15, 0.7, 1194.021, 9.5797, 9.5786),
    (15, 0.8, 1364.596, 11.5818, 11.5808),
    (15, 0.9, 1535.170, 13.3745, 13.3739),
    (15, 0.95, 1620.458, 14.2061, 14.2057),
    (20, 0.2, 467.843, -3.2061, -3.2029),
    (20, 0.3, 701.764, 1.9161, 1.9165),
    (20, 0.4, 935.686, 6.0051, 6.0024),
    (20, 0.5, 1169.607, 9.2728, 9.2690),
    (20, 0.6, 1403.529, 12.0076, 12.0039),
    (20, 0.7, 1637.450, 14.3671, 14.3640),
    (20, 0.8, 1871.372, 16.4471, 16.4449),
    (20, 0.9, 2105.293, 18.3102, 18.3091),
    (20, 0.95, 2222.254, 19.1746, 19.1740),
    (24, 0.2, 597.127, -0.2816, -0.2826),
    (24, 0.3, 895.690, 5.3754, 5.3702),
    (24, 0.4, 1194.253, 9.5826, 9.5760),
    (24, 0.5, 1492.817, 12.9464, 12.9400),
    (24, 0.6, 1791.380, 15.7629, 15.7574),
    (24, 0.7, 2089.943, 18.1936, 18.1894),
    (24, 0.8, 2388.506, 20.3371, 20.3343),
    (24, 0.9, 2687.070, 22.2577, 22.2563),
    (24, 0.95, 2836.351, 23.1489, 23.1482),
    (30, 0.2, 849.338, 4.6137, 4.6047),
    (30, 0.3, 1274.007, 10.5479, 10.5367),
    (30, 0.4, 1698.675, 14.9355, 14.9251),
    (30, 0.5, 2123.344, 18.4463, 18.4374),
    (30, 0.6, 2548.013, 21.3877, 21.3807),
    (30, 0.7, 2972.682, 23.9276, 23.9226),
    (30, 0.8, 3397.351, 26.1684, 26.1652),
    (30, 0.9, 3822.020, 28.1771, 28.1755),
    (30, 0.95, 4034.354, 29.1094, 29.1087),
    (40, 0.2, 1476.885, 12.7826, 12.7659),
    (40, 0.3, 2215.328, 19.1245, 19.1101),
    (40, 0.4, 2953.771, 23.8215, 23.8102),
    (40, 0.5, 3692.214, 27.5846, 27.5762),
    (40, 0.6, 4430.656, 30.7408, 30.7349),
    (40, 0.7, 5169.099, 33.4688, 33.4649),
    (40, 0.8, 5907.542, 35.8773, 35.8751),
    (40, 0.9, 6645.985, 38.0379, 38.0370),
    (40, 0.95, 7015.206, 39.0413, 39.0408),
]


@pytest.mark.source("ashrae-fundamentals-1", "table 3")
@pytest.mark.parametrize(("temperature", "pressure"), PRINTED.items())
def test_saturation_pressure_of_the_printed_table(temperature: float, pressure: float) -> None:
    """Saturation pressures agree with the handbook's table to the digits it prints."""
    assert float(saturation_pressure(temperature)) == pytest.approx(pressure, rel=4e-4, abs=0.005)


@pytest.mark.source("iapws-saturation", "R7-97 and R14-08, recomputed")
def test_saturation_pressure_by_three_formulas() -> None:
    """The equations are met to rounding, IAPWS to 0.04 %, ISO 13788 to 0.3 % above 0 °C."""
    t, ashrae, iapws, iso = np.array(SATURATION).T
    here = saturation_pressure(t)
    assert here == pytest.approx(ashrae, rel=6e-6)
    assert here == pytest.approx(iapws, rel=4e-4)
    assert here[t >= 0] == pytest.approx(iso[t >= 0], rel=3e-3)


@pytest.mark.source("iapws-saturation", "R14-08 check value: 8.94735 Pa at 230 K")
def test_sublimation_check_value() -> None:
    """Over ice the pressure at 230 K is the release's check value within 0.05 %."""
    assert float(saturation_over_ice(230.0 - 273.15)) == pytest.approx(8.94735, rel=5e-4)


@pytest.mark.source("iapws-saturation", "dew and frost points, recomputed")
def test_dew_and_frost_points() -> None:
    """Condensation points agree with the table within 0.005 K, with ISO 13788 within 0.1 K."""
    t, humidity, vapor, iapws, iso = np.array(DEW).T
    pressure = vapor_pressure(t, humidity)
    assert pressure == pytest.approx(vapor, rel=4e-4)
    assert condensation_point(pressure) == pytest.approx(iapws, abs=5e-3)
    assert condensation_point(pressure) == pytest.approx(iso, abs=0.1)


@pytest.mark.source("ashrae-fundamentals-1", "equations 5 and 6")
def test_a_damp_morning_of_the_trade() -> None:
    """Air of 10 °C and 80 % wets what is at 6.7 °C, so a skin must be at 9.7 °C."""
    assert float(dew_point(vapor_pressure(10.0, 0.8))) == pytest.approx(6.7, abs=0.05)


@pytest.mark.source("ashrae-fundamentals-1", "table 2")
def test_saturated_air_of_the_printed_table() -> None:
    """Saturated ratios and heat contents agree within 0.7 %: the table counts air's real gas."""
    t = np.array(list(PRINTED_AIR))
    ratio = humidity_ratio(saturation_pressure(t))
    assert ratio == pytest.approx(list(PRINTED_AIR.values()), rel=7e-3)
    warm = np.array(list(PRINTED_HEAT))
    heat = enthalpy(warm, humidity_ratio(saturation_pressure(warm))) / 1000.0
    assert heat == pytest.approx(list(PRINTED_HEAT.values()), rel=7e-3, abs=0.06)


@pytest.mark.source("ashrae-fundamentals-1", "example 1: 40 °C dry bulb, 20 °C wet bulb")
def test_the_printed_example() -> None:
    """From the example's ratio come its dew point, humidity, heat content, volume, wet bulb.

    The example reads them off a chart, the dew point to a whole degree.
    """
    ratio = 0.0065
    vapor = ratio * 101325.0 / (0.621945 + ratio)
    assert float(dew_point(vapor)) == pytest.approx(7.0, abs=0.7)
    assert float(relative_humidity(40.0, vapor)) == pytest.approx(0.14, abs=0.005)
    assert float(enthalpy(40.0, ratio)) / 1000.0 == pytest.approx(56.7, abs=0.3)
    assert float(specific_volume(40.0, ratio)) == pytest.approx(0.896, abs=0.001)
    assert float(wet_bulb(40.0, vapor)) == pytest.approx(20.0, abs=0.1)


@pytest.mark.source("ashrae-fundamentals-1", "table 2, dry air at 25 °C")
def test_dry_air_of_the_printed_table() -> None:
    """Dry air of 25 °C holds 25.15 kJ/kg and fills 0.8443 m³/kg, and cannot frost."""
    assert float(enthalpy(25.0, 0.0)) / 1000.0 == pytest.approx(25.148, abs=0.005)
    assert float(specific_volume(25.0, 0.0)) == pytest.approx(
        0.8443, abs=5e-4
    )  # a real gas in the table
    assert float(frost_point(0.0)) == -100.0
