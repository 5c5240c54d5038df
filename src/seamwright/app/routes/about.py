"""What this desk is and how it shows things."""

from __future__ import annotations

from importlib.util import find_spec

from fastapi import APIRouter

from seamwright.app.contract.setting import AboutOut, Settings, SettingsIn, WorkKind
from seamwright.app.desk import VERSION, TheDesk
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheSettings, settings_of
from seamwright.store.settings import write_settings

router = APIRouter(tags=["desk"], route_class=SpokenRoute)


@router.get("/about")
def about(desk: TheDesk) -> AboutOut:
    """Say what this desk is and what it can do."""
    work = [WorkKind(name=kind.name, title=kind.title) for kind in desk.kinds.values()]
    ifc = find_spec("ifcopenshell") is not None
    return AboutOut(name="Seamwright", version=VERSION, can_read_ifc=ifc, work=work)


@router.get("/settings")
def get_settings(settings: TheSettings) -> Settings:
    """Return units, language and paper."""
    return settings


@router.put("/settings")
def put_settings(desk: TheDesk, body: SettingsIn) -> Settings:
    """Change units, language or paper."""
    write_settings(desk.store, body.model_dump(exclude_none=True))
    return settings_of(desk)
