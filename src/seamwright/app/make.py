"""The app, put together."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from fastapi import APIRouter, FastAPI
from fastapi.routing import APIRoute

from seamwright.app.desk import VERSION, Desk
from seamwright.app.guard import Guard
from seamwright.app.jobs import JobKind, Runner
from seamwright.app.pages_served import add_pages
from seamwright.app.refuse import ERRORS, add_refusals
from seamwright.app.routes import (
    about,
    corrections,
    decisions,
    houses,
    jobs,
    joints,
    order,
    plans,
    records,
    results,
    revisions,
    uploads,
)
from seamwright.app.workshop import Workshop
from seamwright.store.open import open_store

API = "/api/v1"
LOCAL = ("127.0.0.1", "localhost", "::1")
"""Names of this machine for itself."""

ROOMS = (
    about, plans, uploads, houses, revisions, joints, corrections, decisions, order, jobs, results,
    records,
)  # fmt: skip
"""Every file of addresses; that of uploads stands before that of a house."""

_ABOUT = (
    "The interface of Seamwright's desk. Numbers are SI with the unit in the key. Whatever goes "
    "wrong is told in one shape: a list of problems, each a sentence with its remedy."
)


def make_app(desk: Desk | None, *, hosts: Iterable[str] = LOCAL) -> FastAPI:
    """Return the app over a desk; `hosts` are the names it answers to.

    Without a desk the app serves only its own description.
    """
    app = FastAPI(
        title="Seamwright desk",
        version=VERSION,
        description=_ABOUT,
        openapi_url=f"{API}/openapi.json",
        docs_url=None,
        redoc_url=None,
        generate_unique_id_function=_operation,
        redirect_slashes=False,
    )
    app.state.desk = desk
    whole = APIRouter(prefix=API, responses=ERRORS)
    for room in ROOMS:
        whole.include_router(room.router)
    app.include_router(whole)
    add_pages(app, API)
    add_refusals(app)
    app.add_middleware(Guard, hosts=hosts)
    return app


def _operation(route: APIRoute) -> str:
    """Return the name of a route in the description: the name of its function."""
    return route.name


def make_desk(folder: Path, kinds: Iterable[JobKind] = ()) -> Desk:
    """Return the desk whose state lies in `folder`, made if it is not there.

    Raises
    ------
    FormatError
        When what lies there is no store of a desk.
    """
    store = open_store(folder)
    known = {kind.name: kind for kind in kinds}
    return Desk(store=store, workshop=Workshop(), runner=Runner(store, known), kinds=known)
