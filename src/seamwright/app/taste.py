"""The settings, read for a route."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from fastapi import Depends, Query

from seamwright.app.contract.setting import Settings, Units
from seamwright.app.desk import TheDesk
from seamwright.store.settings import read_settings


def settings_of(desk: TheDesk) -> Settings:
    """Return the settings of the desk; what was never set, or is no longer known, by default."""
    held = read_settings(desk.store)
    known = {key: value for key, value in held.items() if key in Settings.model_fields}
    return Settings.model_validate({**Settings().model_dump(), **known})


def units_of(
    desk: TheDesk,
    units: Annotated[
        Units | None, Query(description="Units of the sentences; default: the setting.")
    ] = None,
) -> Units:
    """Return the units to answer in: those asked for, else those set."""
    return settings_of(desk).units if units is None else units


TheUnits: TypeAlias = Annotated[Units, Depends(units_of)]
TheSettings: TypeAlias = Annotated[Settings, Depends(settings_of)]
