"""Sun and sky against published relations, as coded elsewhere or printed with an example."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pvlib
import pytest

from seamwright.climate.moist_air import condensation_point, vapor_pressure
from seamwright.climate.sky import (
    STEFAN_BOLTZMANN,
    clear_sky_emissivity,
    clear_sky_emissivity_1978,
    clear_sky_emissivity_1984,
    cloud_factor,
    sky_temperature,
)
from seamwright.climate.sun import (
    Place,
    clear_global,
    diffuse_share,
    incidence,
    irradiance,
    sun_position,
)
from seamwright.climate.surface import convection, surface_temperature

PLACES = [(47.6, -122.3), (35.0, -80.0), (68.0, 20.0), (-33.9, 151.2), (0.1, 10.0)]
TIMES = pd.date_range("2026-01-01", "2026-12-31", freq="97min", tz="UTC")
SECONDS = TIMES.as_unit("s").asi8.astype(float)


def place(latitude: float, longitude: float) -> Place:
    """Return a place from degrees."""
    return Place(latitude=np.radians(latitude), longitude=np.radians(longitude))


@pytest.mark.source("meeus-1998", "a year in steps of 97 min at five latitudes, SPA by pvlib")
@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
def test_sun_position_against_spa(latitude: float, longitude: float) -> None:
    """The sun is within 0.02° of the reference algorithm all year, from the tropics to 68° N."""
    ours = sun_position(SECONDS, place(latitude, longitude))
    theirs = pvlib.solarposition.get_solarposition(TIMES, latitude, longitude, method="nrel_numpy")
    assert np.degrees(ours.elevation) == pytest.approx(theirs.elevation.to_numpy(), abs=0.02)
    turn = np.angle(np.exp(1j * (ours.azimuth - np.radians(theirs.azimuth.to_numpy()))))
    assert np.degrees(turn) * np.cos(ours.elevation) == pytest.approx(0.0, abs=0.02)


@pytest.mark.filterwarnings("ignore:.*dayofyear.*")  # pvlib's own use of pandas
@pytest.mark.source("erbs-1982", "the four relations as coded in pvlib")
def test_sun_on_a_face_against_pvlib() -> None:
    """Clear sky, diffuse share, angle and sun on tilted faces follow the published relations."""
    sun = sun_position(SECONDS, place(47.6, -122.3))
    zenith = 90.0 - np.degrees(sun.elevation)
    day = zenith < 86.0
    clear = clear_global(sun)
    theirs = pvlib.clearsky.haurwitz(pd.Series(zenith))["ghi"].to_numpy()
    assert clear[day] == pytest.approx(theirs[day], rel=1e-9)
    half = 0.55 * clear
    parted = pvlib.irradiance.erbs(half, zenith, TIMES)
    assert (diffuse_share(sun, half) * half)[day] == pytest.approx(
        np.asarray(parted["dhi"])[day], rel=0.01, abs=1.0
    )
    azimuth = np.degrees(sun.azimuth)
    for toward, tilt in ((180.0, 30.0), (90.0, 90.0), (0.0, 45.0)):
        face = (np.radians(toward), np.radians(tilt))
        angle = pvlib.irradiance.aoi_projection(tilt, toward, zenith, azimuth)
        assert incidence(sun, *face)[day] == pytest.approx(np.maximum(angle, 0.0)[day], abs=1e-9)
        dhi = diffuse_share(sun, half) * half
        beam = (half - dhi) / np.sin(sun.elevation)
        total = pvlib.irradiance.get_total_irradiance(
            tilt, toward, zenith, azimuth, beam, half, dhi, albedo=0.2, model="isotropic"
        )
        expected = np.asarray(total["poa_global"])
        assert irradiance(sun, half, *face)[day] == pytest.approx(expected[day], abs=0.01)


@pytest.mark.source("walton-1983", "page 21: 20 °C, dew point 10 °C, clear: 0.815 and 340.6 W/m²")
def test_the_printed_example_of_a_clear_sky() -> None:
    """The oldest relation gives its own printed example."""
    emissivity = float(clear_sky_emissivity_1978(10.0))
    assert emissivity == pytest.approx(0.815, abs=5e-4)
    assert emissivity * STEFAN_BOLTZMANN * 293.0**4 == pytest.approx(340.6, abs=0.5)


@pytest.mark.source("li-2017", "coefficients 0.758, 0.521, 0.625; 0.711, 0.56, 0.73 of 1984")
def test_three_relations_for_a_clear_sky_agree() -> None:
    """Fits of 1978, 1984 and 2017 lie within 0.06 of each other from -10 to 20 °C dew point."""
    dew = np.linspace(-10.0, 20.0, 13)
    now, old = clear_sky_emissivity(dew), clear_sky_emissivity_1978(dew)
    night = clear_sky_emissivity_1984(dew, 0.0)
    assert float(clear_sky_emissivity(10.0)) == pytest.approx(0.81635, abs=1e-9)
    assert float(clear_sky_emissivity_1984(10.0, 6.0)) == pytest.approx(0.7743, abs=1e-9)
    assert now == pytest.approx(old, abs=0.06)
    assert now == pytest.approx(night, abs=0.06)


@pytest.mark.source("walton-1983", "cloud polynomial at 0, 5 and 10 tenths")
def test_clouds_warm_the_sky() -> None:
    """Full cloud raises the sky's radiation by 15.4 %, half cloud by 5.95 %."""
    assert cloud_factor(np.array([0.0, 0.5, 1.0])) == pytest.approx([1.0, 1.0595, 1.154], abs=1e-9)


@pytest.mark.source("mcadams-1954", "h = 5.7 + 3.8 v")
def test_a_roof_under_a_clear_night_is_colder_than_the_air() -> None:
    """In still air of 10 °C and 80 % a roof falls below the dew point though the air is at 10 °C.

    The balance is checked by putting the found temperature back into it.
    """
    assert convection(np.array([0.0, 2.0])) == pytest.approx([5.7, 13.3])
    dew = float(condensation_point(vapor_pressure(10.0, 0.8)))
    roof = float(surface_temperature(10.0, dew_point=dew, wind=0.5, cloud=0.0, sun=0.0, tilt=0.5))
    assert roof < dew - 1.0
    view = (1.0 + np.cos(0.5)) / 2.0
    to_sky = view**1.5
    sky = float(sky_temperature(10.0, dew, 0.0)) + 273.15
    rays = to_sky * sky**4 + (1.0 - to_sky) * 283.15**4 - (roof + 273.15) ** 4
    lost = 0.9 * STEFAN_BOLTZMANN * rays + (7.6 + 0.25) * (10.0 - roof)
    assert lost == pytest.approx(0.0, abs=1e-6)
