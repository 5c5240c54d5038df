"""How the desk shows things, and what it can do."""

from __future__ import annotations

from typing import Literal, TypeAlias

from pydantic import BaseModel

from seamwright.app.contract.house import Body
from seamwright.app.contract.told import Told

Units: TypeAlias = Literal["us", "metric"]
Language: TypeAlias = Literal["en", "es"]
Paper: TypeAlias = Literal["letter", "a4"]


class Settings(BaseModel):
    """Units, language and paper of this desk."""

    units: Units = "us"
    language: Language = "en"
    paper: Paper = "letter"


class SettingsIn(Body):
    """The settings to change; what is left out stays."""

    units: Units | None = None
    language: Language | None = None
    paper: Paper | None = None


class WorkKind(BaseModel):
    """A kind of long work this desk can do."""

    name: str
    title: Told


class AboutOut(BaseModel):
    """What this desk is: its version and what it can do. `can_read_ifc` needs the ifc extra."""

    name: str
    version: str
    can_read_ifc: bool
    work: list[WorkKind]
