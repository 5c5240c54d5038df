"""What was done on site."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field

from seamwright.app.contract.house import Body, Words

Moment: TypeAlias = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2})?Z)?$")]
"""A day, or a time in UTC."""


class RecordIn(Body):
    """A thing done at a joint. Sending it twice under one `key` records it once."""

    key: Annotated[str, Field(min_length=8, max_length=60)]
    joint: Annotated[str, Field(min_length=1, max_length=120)]
    what: Literal["sealed", "checked", "reopened"]
    person: Annotated[str, Field(min_length=1, max_length=80)]
    note: Words = ""
    done_at: (
        Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2})?Z)?$")] | None
    ) = None


class RecordOut(BaseModel):
    """A thing recorded; `done_at` as told from the site, `made_at` when it came in (UTC)."""

    id: int
    key: str
    joint: str
    what: str
    person: str
    note: str
    done_at: str
    made_at: str


class RecordList(BaseModel):
    """Everything recorded at a house, the oldest first, and how many joints are how far."""

    records: list[RecordOut]
    states: dict[str, int]
