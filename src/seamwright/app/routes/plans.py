"""Plans before they are houses: the built-in ones, and live validation."""

from __future__ import annotations

from functools import cache

from fastapi import APIRouter

from seamwright.app.contract.house import ExampleList, ExampleOut, Validated, ValidateIn
from seamwright.app.intake import take
from seamwright.app.spoken import SpokenRoute
from seamwright.app.summary import checked, invalid
from seamwright.app.taste import TheUnits
from seamwright.errors import InputError
from seamwright.io.plan import builtin_house, builtin_house_names, read_plan

router = APIRouter(tags=["plans"], route_class=SpokenRoute)


@router.get("/examples")
def list_examples() -> ExampleList:
    """List the houses that come with the package."""
    return ExampleList(examples=[_example(name) for name in builtin_house_names()])


@router.post("/validate")
def validate(units: TheUnits, body: ValidateIn) -> Validated:
    """Say what is wrong with a plan, as `seamwright check` does; keep nothing."""
    try:
        text = take(body.source).text
    except InputError as error:
        return invalid("", error, units)
    return checked(text, units)


@cache
def _example(name: str) -> ExampleOut:
    site = read_plan(builtin_house(name), name=name).plan.site
    return ExampleOut(name=name, title=site.name, place="" if site.place is None else site.place)
