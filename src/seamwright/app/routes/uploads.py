"""Houses from files dropped on the page."""

from __future__ import annotations

from pathlib import PurePath
from typing import Annotated

from fastapi import APIRouter, File, Form, UploadFile

from seamwright.app.apart import model_text
from seamwright.app.contract.house import FromCsv, FromYaml, HouseOut
from seamwright.app.desk import TheDesk
from seamwright.app.intake import Taken, take
from seamwright.app.routes.houses import keep
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheUnits
from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.yaml_text import LARGEST_FILE, read_text

router = APIRouter(tags=["houses"], route_class=SpokenRoute)

LARGEST_MODEL = 50_000_000
"""Largest building model taken. Our own choice. [bytes]"""
_ENDINGS = (".yaml", ".yml", ".csv", ".ifc")


@router.post("/houses/upload", status_code=201)
def upload_house(
    desk: TheDesk,
    units: TheUnits,
    file: Annotated[UploadFile, File(description="A .yaml plan, a .csv panel list or an .ifc.")],
    *,
    types: Annotated[
        UploadFile | None, File(description="For a .csv: the plan that holds its panel types.")
    ] = None,
    author: Annotated[str, Form(max_length=80)] = "",
    note: Annotated[str, Form(max_length=2000)] = "",
) -> HouseOut:
    """Add a house from a file: a plan, a panel list with its panel types, or a building model."""
    return keep(desk, _taken(file, types), author, note, units)


def _taken(file: UploadFile, types: UploadFile | None) -> Taken:
    name, ending = _name(file)
    if ending == ".ifc":
        data = _read(file, name, LARGEST_MODEL)
        return Taken(text=model_text(data, name), origin="ifc", origin_name=name)
    text = _text(file, name)
    if ending == ".csv":
        if types is None:
            raise _refused(
                name,
                f"{name} says where each panel stands, not what it is made of",
                "bring along a plan with site and panel_types",
            )
        given = _text(types, _name(types)[0])
        return take(FromCsv(kind="csv", text=text, types=given, name=name))
    return take(FromYaml(kind="yaml", text=text, name=name))


def _name(file: UploadFile) -> tuple[str, str]:
    """Return the bare name of a file, fit to show, and its ending."""
    given = "" if file.filename is None else file.filename
    bare = PurePath(given.replace("\\", "/")).name
    name = "".join(c if c.isprintable() else "·" for c in bare)[:120]
    ending = PurePath(name).suffix.lower()
    if ending not in _ENDINGS:
        shown = name or "the file"
        raise _refused(
            shown, f"{shown} is of no kind known here", f"bring one of {', '.join(_ENDINGS)}"
        )
    return name, ending


def _text(file: UploadFile, name: str) -> str:
    text, _ = read_text(_read(file, name, LARGEST_FILE), "plan", name)
    return text


def _read(file: UploadFile, name: str, most: int) -> bytes:
    data = file.file.read(most + 1)
    if len(data) > most:
        told = f"{name} is larger than the {most / 1e6:.0f} MB taken"
        raise _refused(name, told, "check that it is the right file")
    return data


def _refused(name: str, sentence: str, remedy: str) -> InputError:
    return FormatError([Problem(subject=name, sentence=sentence, remedy=remedy, file=name)])
