"""What every route works with: the store, the workshop, and the kinds of long work there are."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Annotated, TypeAlias

from fastapi import Depends, Path, Request

import seamwright
from seamwright.app.built import Built
from seamwright.app.jobs import JobKind, Runner
from seamwright.app.stamp import code_stamp
from seamwright.app.workshop import Packed, Workshop
from seamwright.errors import InputError
from seamwright.store.houses import House, find_house, list_houses
from seamwright.store.open import Store
from seamwright.store.results import find_result, keep_result
from seamwright.store.revisions import Revision, find_revision

VERSION = seamwright.__version__
CODE = code_stamp(VERSION)
"""What documents in the store were made by; another program makes them anew."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Desk:
    """The desk behind the routes. `secret` lives as long as the server runs."""

    store: Store
    workshop: Workshop
    runner: Runner
    kinds: Mapping[str, JobKind]
    secret: bytes = field(default_factory=lambda: secrets.token_bytes(16))

    def close(self) -> None:
        """Break off what runs and let go of the store."""
        self.runner.close()
        self.store.close()

    def head(self, house_id: str) -> tuple[House, Revision]:
        """Return a house and the revision that counts."""
        house = find_house(self.store, house_id)
        return house, find_revision(self.store, house_id, house.head)

    def revision(self, house_id: str, number: int | None = None) -> Revision:
        """Return a revision of a house, the head when no number is given."""
        house = find_house(self.store, house_id)
        return find_revision(self.store, house_id, house.head if number is None else number)

    def built(self, house_id: str, number: int | None = None) -> tuple[Revision, Built]:
        """Return a revision of a house, the head when no number is given, worked out."""
        row = self.revision(house_id, number)
        return row, self.workshop.built(row.plan_hash, lambda: row.plan_text)

    def document(
        self, row: Revision, kind: str, version: object, make: Callable[[Built], bytes]
    ) -> Packed:
        """Return a document made from a revision: at hand, else kept in the store, else made now.

        `kind` and `version` name it; of one kind and plan text the store keeps the last version.
        """

        def found() -> bytes:
            named = f"{CODE} {version}"
            held = find_result(self.store, row.plan_hash, kind, named)
            if held is None:
                held = make(self.workshop.built(row.plan_hash, lambda: row.plan_text))
                keep_result(self.store, row.plan_hash, kind, named, held)
            return held

        return self.workshop.document((row.plan_hash, kind, version), found)

    def warm(self) -> None:
        """Work out the house that was changed last, so that its pages open at once."""
        houses = list_houses(self.store)
        with suppress(InputError):
            if houses:
                self.built(houses[0].id)


def desk_of(request: Request) -> Desk:
    """Return the desk of the running app."""
    desk: Desk = request.app.state.desk
    return desk


TheDesk: TypeAlias = Annotated[Desk, Depends(desk_of)]
HouseId: TypeAlias = Annotated[str, Path(max_length=20, description="The id of a house.")]
JointId: TypeAlias = Annotated[str, Path(max_length=120, description="The id of a joint.")]
RevisionNumber: TypeAlias = Annotated[int, Path(ge=1, le=2**31 - 1)]
