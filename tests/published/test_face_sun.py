"""Sun on tilted faces with a bright sky about the sun, and over a measured year, against pvlib."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pvlib
import pytest
from tests.real_years import FOLDER, YEARS

from seamwright.climate.sun import (
    Place,
    clear_global,
    declination,
    diffuse_share,
    irradiance,
    sun_position,
)

TIMES = pd.date_range("2026-01-01", "2026-12-31", freq="97min", tz="UTC")
SECONDS = TIMES.as_unit("s").asi8.astype(float)
SEATTLE = Place(latitude=np.radians(47.6), longitude=np.radians(-122.3))
FACES = ((180.0, 90.0), (90.0, 90.0), (0.0, 90.0), (180.0, 33.7), (0.0, 33.7))


@pytest.mark.filterwarnings("ignore:.*dayofyear.*")  # pvlib's own use of pandas
@pytest.mark.source("hay-davies-1980", "the relation as coded in pvlib")
@pytest.mark.parametrize(("toward", "tilt"), FACES)
def test_the_bright_sky_about_the_sun_against_pvlib(toward: float, tilt: float) -> None:
    """With the sun above 5° each face has the sun of the published relation within 2 W/m²."""
    sun = sun_position(SECONDS, SEATTLE)
    zenith, azimuth = 90.0 - np.degrees(sun.elevation), np.degrees(sun.azimuth)
    day = zenith < 85.0
    flat = 0.7 * clear_global(sun)
    diffuse = diffuse_share(sun, flat) * flat
    beam = (flat - diffuse) / np.sin(sun.elevation)
    theirs = pvlib.irradiance.get_total_irradiance(
        tilt, toward, zenith, azimuth, beam, flat, diffuse, albedo=0.2, model="haydavies",
        dni_extra=1361.0 / sun.distance**2,
    )  # fmt: skip
    ours = irradiance(sun, flat, np.radians(toward), np.radians(tilt), around_sun=True)
    assert ours[day] == pytest.approx(np.asarray(theirs["poa_global"])[day], abs=2.0)


@pytest.mark.filterwarnings("ignore:.*dayofyear.*")  # pvlib's own use of pandas
@pytest.mark.source("nrel-tmy3", "Greensboro, NC: beam and diffuse of the file, sky after Perez")
@pytest.mark.parametrize(("toward", "tilt"), FACES)
def test_the_sun_of_a_year_on_a_face(toward: float, tilt: float) -> None:
    """From flat ground alone the year's sun on a face is within 8 % of beam, diffuse and Perez.

    The bright sky about the sun comes nearer than the even one on a face toward it.
    """
    file, meta = pvlib.iotools.read_tmy3(
        FOLDER / YEARS["Greensboro, NC"], coerce_year=2001, map_variables=True
    )
    middle = (file.index - pd.Timedelta(minutes=30)).tz_convert("UTC")
    place = Place(latitude=np.radians(meta["latitude"]), longitude=np.radians(meta["longitude"]))
    sun = sun_position(middle.as_unit("s").asi8.astype(float), place)
    zenith, azimuth = 90.0 - np.degrees(sun.elevation), np.degrees(sun.azimuth)
    perez = pvlib.irradiance.get_total_irradiance(
        tilt, toward, pd.Series(zenith, middle), pd.Series(azimuth, middle),
        pd.Series(file["dni"].to_numpy(), middle), pd.Series(file["ghi"].to_numpy(), middle),
        pd.Series(file["dhi"].to_numpy(), middle), albedo=0.2, model="perez",
        dni_extra=pd.Series(1361.0 / sun.distance**2, middle),
        airmass=pvlib.atmosphere.get_relative_airmass(pd.Series(np.minimum(zenith, 89.0), middle)),
    )["poa_global"].fillna(0.0).sum()  # fmt: skip
    face = (np.radians(toward), np.radians(tilt))
    flat = file["ghi"].to_numpy(dtype=float)
    bright = irradiance(sun, flat, *face, around_sun=True).sum()
    even = irradiance(sun, flat, *face).sum()
    assert bright == pytest.approx(perez, rel=0.08)
    if toward == 180.0:
        assert abs(bright - perez) < abs(even - perez)


@pytest.mark.source("meeus-1998", "NREL's algorithm as coded in pvlib")
def test_the_declination_against_pvlib() -> None:
    """The sun stands overhead where the reference algorithm has it, within 0.02°."""
    theirs = np.radians(
        pvlib.solarposition.get_solarposition(TIMES, 0.0, 0.0, method="nrel_numpy").zenith
    )
    assert declination(SECONDS).max() == pytest.approx(np.radians(23.44), abs=2e-4)
    noon = sun_position(SECONDS, Place(latitude=0.0, longitude=0.0))
    assert np.degrees(noon.elevation) == pytest.approx(90.0 - np.degrees(theirs), abs=0.02)
