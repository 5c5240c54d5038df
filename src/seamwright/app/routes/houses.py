"""Houses: the list, a new one, one of them, and taking one out."""

from __future__ import annotations

import hashlib
import hmac
from typing import Annotated

from fastapi import APIRouter, Query, Request, Response

from seamwright.app.answer import SVG, drawing_response, packed_response
from seamwright.app.built import Built
from seamwright.app.contract.house import (
    HouseList,
    HouseOut,
    HouseRow,
    NewHouse,
    PlanOut,
    RemovalOut,
)
from seamwright.app.contract.scene import SceneOut
from seamwright.app.desk import Desk, HouseId, TheDesk
from seamwright.app.drawings import picture_svg
from seamwright.app.intake import Taken, form_of, take
from seamwright.app.scene import scene_of
from seamwright.app.shown import shown
from seamwright.app.spoken import SpokenRoute
from seamwright.app.state import states_of
from seamwright.app.taste import TheLanguage, TheSettings, TheUnits
from seamwright.store.clash import clash
from seamwright.store.houses import (
    House,
    add_house,
    find_house,
    list_houses,
    remove_house,
    restore_house,
)
from seamwright.store.revisions import plan_hash
from seamwright.units import System

router = APIRouter(tags=["houses"], route_class=SpokenRoute)


@router.get("/houses")
def get_houses(
    desk: TheDesk,
    *,
    removed: Annotated[bool, Query(description="Those taken out instead.")] = False,
) -> HouseList:
    """List the houses, the one changed last in front."""
    return HouseList(houses=[_row(house) for house in list_houses(desk.store, removed=removed)])


@router.post("/houses", status_code=201)
def post_house(desk: TheDesk, units: TheUnits, body: NewHouse) -> HouseOut:
    """Add a house from a form, a plan text, a panel list or a built-in house."""
    return keep(desk, take(body.source), body.author, body.note, units)


@router.get("/houses/{house}")
def get_house(desk: TheDesk, units: TheUnits, house: HouseId) -> HouseOut:
    """Return what a house is now and what is open about it."""
    return shown(desk, house, units)


@router.get("/houses/{house}/plan")
def get_plan(
    desk: TheDesk,
    house: HouseId,
    revision: Annotated[int | None, Query(ge=1, le=2**31 - 1)] = None,
) -> PlanOut:
    """Return the plan text of a house, and the form it came from."""
    row = desk.revision(house, revision)
    return PlanOut(house=house, number=row.number, text=row.plan_text, form=form_of(row))


@router.get("/houses/{house}/scene", response_model=SceneOut)
def get_scene(
    desk: TheDesk,
    request: Request,
    house: HouseId,
    revision: Annotated[int | None, Query(ge=1, le=2**31 - 1)] = None,
) -> Response:
    """Return the house in space, compact, for the page to draw."""
    row = desk.revision(house, revision)
    states = states_of(desk.store, house)

    def make(built: Built) -> bytes:
        scene = scene_of(built, states.by_joint, house=house, revision=row.number)
        return scene.model_dump_json().encode()

    version = (house, row.number, states.last)
    return packed_response(request, desk.document(row, "scene", version, make))


@router.get("/houses/{house}/picture", response_class=Response, responses=SVG)
def get_picture(
    desk: TheDesk,
    request: Request,
    *,
    units: TheUnits,
    language: TheLanguage,
    settings: TheSettings,
    house: HouseId,
) -> Response:
    """Return the house as a drawing with its visible joints (SVG), for where no model can turn."""

    def make(built: Built) -> bytes:
        return picture_svg(built, units, settings.paper, language).encode()

    kind = f"picture {units} {language} {settings.paper}"
    return drawing_response(request, desk.document(desk.revision(house), kind, "", make))


@router.post("/houses/{house}/removal")
def ask_removal(desk: TheDesk, house: HouseId) -> RemovalOut:
    """Say what removing a house would do, and give the token that confirms it."""
    held = find_house(desk.store, house)
    told = f"{held.name} goes off the list with all its revisions; it can be brought back"
    return RemovalOut(token=_token(desk, held), sentence=told)


@router.delete("/houses/{house}", status_code=204)
def delete_house(
    desk: TheDesk, house: HouseId, token: Annotated[str, Query(max_length=80)]
) -> None:
    """Take a house off the list; the token says that this was meant."""
    held = find_house(desk.store, house)
    if not hmac.compare_digest(token.encode("utf-8", "replace"), _token(desk, held).encode()):
        told = "the removal was not confirmed, or the house changed since it was"
        raise clash("house", told, "ask for the removal again and confirm it")
    remove_house(desk.store, house)


@router.post("/houses/{house}/restoration")
def post_restoration(desk: TheDesk, units: TheUnits, house: HouseId) -> HouseOut:
    """Put a removed house back on the list."""
    restore_house(desk.store, house)
    return shown(desk, house, units)


def keep(desk: Desk, taken: Taken, author: str, note: str, units: System) -> HouseOut:
    """Add the house of a plan that was taken in, if it is one."""
    built = desk.workshop.built(plan_hash(taken.text), lambda: taken.text)
    house = add_house(desk.store, built.house.plan.site.name, taken.revision(author, note))
    return shown(desk, house.id, units)


def _row(house: House) -> HouseRow:
    return HouseRow(
        id=house.id, name=house.name, head=house.head, made_at=house.made_at,
        changed_at=house.changed_at,
    )  # fmt: skip


def _token(desk: Desk, house: House) -> str:
    words = f"{house.id} {house.head}".encode()
    return hmac.new(desk.secret, words, hashlib.sha256).hexdigest()[:20]
