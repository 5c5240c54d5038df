"""The dryness of joints as the desk gives it on: SI with the unit in the key."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from seamwright.app.contract.told import Figured, Told

Face = Literal["inner", "outer", "both"]


class CriterionOut(BaseModel):
    """One limit, what came out, and how far apart they are as a part of the limit."""

    name: str
    value: float
    limit: float
    unit: str
    margin: float
    season: Told
    source: Told


class PlaceVerdictOut(BaseModel):
    """The verdict at one place of the section, by the criterion that binds."""

    place: Told
    within: bool
    margin: float
    binding: str
    trend: str
    criteria: list[CriterionOut]


class FaceOptionOut(BaseModel):
    """What comes of sealing one face."""

    face: Face
    usual_leak_m3_h_m: float
    tolerable_leak_m3_h_m: float | None
    tolerable_leak_words: Figured | None
    places: list[PlaceVerdictOut]


class WettestOut(BaseModel):
    """Where and when the wood is wettest."""

    place: Told
    depth_share: float | None
    moisture_kg_kg: float
    season: Told
    month: int


class DryRunOut(BaseModel):
    """One run: a face, a leakage, and the margin that came of it."""

    face: Face
    leak_m3_h_m: float
    usual: bool
    converged: bool
    advice: Told
    margin: float | None
    binding: str | None
    wettest: WettestOut | None


class AdviceGiven(BaseModel):
    """What somebody has published on this, and whether it agrees."""

    holder: Told
    says: Told
    source: Told
    agrees: bool | None


class HeightOut(BaseModel):
    """A joint type at one height above the neutral level."""

    height: str
    above_neutral_level_m: float
    proposed_face: Face | None
    proposal: list[Figured]
    published_advice: list[AdviceGiven]
    options: list[FaceOptionOut]
    runs: list[DryRunOut]


class DryTypeOut(BaseModel):
    """Joints that get wet alike."""

    type: str
    title: Told
    drawn: str
    joints: list[str]
    length_m: float
    undammed_height_m: float
    heights: list[HeightOut]


class LeftOutOut(BaseModel):
    """Joints that were not worked out, and why."""

    type: str
    title: Told
    joints: list[str]
    why: Told


class JointDrynessOut(BaseModel):
    """What a joint tolerates, and how far it stays from its limit without a leak."""

    id: str
    type: str
    tolerable_leak_m3_h_m: float | None
    margin: float | None


class DrynessOut(BaseModel):
    """The dryness of a house's joints in one climate."""

    weather: Told
    generated: bool
    rooms: Figured
    years: int
    proposal_only: Told
    assumed: list[Figured]
    limits_of_the_model: list[Told]
    joints: list[JointDrynessOut]
    types: list[DryTypeOut]
    left_out: list[LeftOutOut]


class DryFrom(BaseModel):
    """A go that stands behind gathered results, and how many types of joint it still tells."""

    job: str
    ended_at: str
    weather: Told
    rooms: Figured
    years: int
    types: int


class DrynessGathered(DrynessOut):
    """Several goes put together. What is told of the climate holds for the newest of them."""

    made_from: list[DryFrom]
