"""What the site wrote down, as a file: read, taken in, and what of it goes into the search."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, Field

from seamwright.app.contract.house import Body


class SiteFileIn(Body):
    """A records file as text. `person` is who stands for it where it names no crew."""

    name: Annotated[str, Field(min_length=1, max_length=120)] = "records.yaml"
    text: Annotated[str, Field(max_length=2_000_000)]
    person: Annotated[str, Field(min_length=1, max_length=80)]


class DiaryEntry(BaseModel):
    """A test, a look or a mend, as the search reads it; words that do not belong are left out."""

    test: str | None = None
    look: str | None = None
    mend: str | None = None
    day: str | None = None
    flow: str | None = None
    low: str | None = None
    high: str | None = None
    masked: list[str] | None = None
    unsealed: list[str] | None = None
    by: Literal["smoke", "infrared", "hand"] | None = None
    saw: Literal["nothing", "something"] | int | None = None
    pressure: float | None = None


class SealNote(BaseModel):
    """What is known of how places were sealed."""

    at: list[str]
    sealed: bool | None = None
    checked: bool | None = None
    photo: bool | None = None
    taped: str | None = None
    crew: str | None = None


class CrewNote(BaseModel):
    """A crew, how it works, and what it made."""

    name: str
    work: str | None = None
    made: list[str] | None = None


class SiteFileOut(BaseModel):
    """What a records file brought: joints recorded now, those known before, and the diary.

    `crews`, `seals`, `workmanship` and `target` are what the search starts from beside its diary.
    """

    recorded: int
    known: int
    diary: list[DiaryEntry]
    crews: list[CrewNote]
    seals: list[SealNote]
    workmanship: Literal["careful", "ordinary", "careless"]
    target: str | None
    notes: list[str]
