"""The climate of a house as JSON: SI numbers with the unit in the key."""

from __future__ import annotations

import math

from seamwright.climate.generated import is_generated
from seamwright.climate.monthly import MonthlyClimate, degree_days
from seamwright.climate.stations import NearStation
from seamwright.climate.weather import HourlyWeather
from seamwright.climate.zones import WARM_HUMID, Zone, is_warm_humid, warm_humid_hours
from seamwright.io.json_text import Json
from seamwright.io.site_zone import SiteZones
from seamwright.io.weather_source import SiteClimate


def climate_document(
    climate: SiteClimate, months: MonthlyClimate, zones: SiteZones | None, warning: str | None
) -> Json:
    """Return zone, stations, months and design figures of a house."""
    weather, place = climate.weather, climate.place
    heating, cooling = degree_days(weather.air)
    ends = months.extremes
    return {
        "id": "climate",
        "origin": climate.origin,
        "generated": is_generated(weather),
        "notes": list(climate.notes),
        "place": None
        if place is None
        else {
            "latitude_deg": math.degrees(place.latitude),
            "longitude_deg": math.degrees(place.longitude),
            "elevation_m": place.elevation,
        },
        "zones": [] if zones is None else [_zone(e, z, zones) for e, z in zones.zones],
        "zone_warning": warning,
        "county_warm_humid": None if zones is None else zones.county.warm_humid,
        "stations": [_station(near) for near in climate.near],
        "months": [_month(months, k) for k in range(12)],
        "heating_degree_days_18_k_d": heating,
        "cooling_degree_days_10_k_d": cooling,
        "extremes": None
        if ends is None
        else {
            "cold_0_4_percent_c": ends.cold_004,
            "cold_1_percent_c": ends.cold_01,
            "warm_1_percent_c": ends.warm_01,
            "warm_0_4_percent_c": ends.warm_004,
        },
        "warm_humid": _humid(weather),
    }


def _zone(edition: str, zone: Zone | None, zones: SiteZones) -> Json:
    return {
        "edition": edition,
        "zone": None if zone is None else zone.name,
        "origin": zones.origin,
        "county_named": zones.named,
    }


def _station(near: NearStation) -> Json:
    return {
        "id": near.station.id,
        "name": f"{near.station.name}, {near.station.state}",
        "distance_m": near.distance,
        "above_house_m": near.rise,
        "zone_2021": near.station.zone,
    }


def _month(months: MonthlyClimate, k: int) -> Json:
    return {
        "month": k + 1,
        "temperature_c": months.temperature[k],
        "vapor_pressure_pa": months.vapor[k],
        "wind_m_s": months.wind[k],
        "sun_w_m2": months.sun[k],
        "rain_kg_m2": None if months.rain is None else months.rain[k],
    }


def _humid(weather: HourlyWeather) -> Json:
    hours = warm_humid_hours(weather)
    return {
        "by_hours": is_warm_humid(weather),
        "wet_bulb": [
            {"at_least_c": bulb, "hours_h": count, "needed_h": needed}
            for count, (bulb, needed) in zip(hours, WARM_HUMID, strict=True)
        ],
    }
