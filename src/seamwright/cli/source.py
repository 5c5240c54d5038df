"""From the word PLAN on the command line to a plan, whatever kind of file it names."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.catalog import read_catalog
from seamwright.io.ifc import IfcReading, read_ifc
from seamwright.io.plan import PlanFile, builtin_house, builtin_house_names, read_plan, with_place
from seamwright.io.yaml_text import read_text
from seamwright.seals.catalog import default_catalog
from seamwright.seals.types import Catalog, Sentence
from seamwright.shell.plan import Plan
from seamwright.units import System, format_length

PLAN_ENDINGS = (".yaml", ".yml")
ENDINGS = (*PLAN_ENDINGS, ".ifc", ".csv")


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """A plan and the name of the file or house it came from.

    `used` and `assumed` say what the reader took from the file, and what it had to assume or leave
    out; `model` is the reading of a building model.
    """

    plan: Plan
    name: str
    file: PlanFile | None = None
    used: tuple[Sentence, ...] = ()
    assumed: tuple[Sentence, ...] = ()
    model: IfcReading | None = None

    @contextmanager
    def placed(self, units: System = "us") -> Iterator[None]:
        """Give the problems that the core finds their file and line, and the user's units."""
        try:
            yield
        except InputError as error:
            found = [p.filled(lambda value: format_length(value, units)) for p in error.problems]
            if self.file is not None:
                found = list(with_place(found, self.file))
            raise InputError(found) from error


def read_source(word: str, *, types: Path | None = None) -> Source:
    """Return the plan that `word` names: a file by its ending, or a built-in house.

    Raises
    ------
    InputError
        With every reason why the file or word cannot be used.
    """
    path = Path(word)
    ending = path.suffix.lower()
    if not path.exists() and word in builtin_house_names():
        return built_in(word)
    _refuse_what_is_no_file(path, word)
    if types is not None and ending != ".csv":
        remedy = "leave --types out, or name a .csv panel list"
        told = f"{path.name} brings its own panel types"
        raise InputError([Problem(subject=path.name, sentence=told, remedy=remedy)])
    if ending in PLAN_ENDINGS:
        return _from_plan(read_plan(path), path.name)
    if ending == ".csv":
        return _from_list(path, types)
    if ending == ".ifc":
        return _from_ifc(path)
    raise FormatError([_unknown_ending(path)])


def built_in(name: str) -> Source:
    """Return a built-in house by its name."""
    return _from_plan(read_plan(builtin_house(name), name=name), name)


def shelf(source: Source, given: Path | None) -> Catalog:
    """Return the catalog to seal from: the one given, else the plan's own, else the default."""
    if given is not None:
        return read_catalog(given)
    file = source.file
    if file is not None and file.catalog is not None:
        return file.catalog
    if file is not None and file.catalog_path is not None:
        return read_catalog(Path(file.catalog_path))
    return default_catalog()


def _from_plan(file: PlanFile, name: str) -> Source:
    return Source(plan=file.plan, name=name, file=file, assumed=file.notes)


def _from_list(path: Path, types: Path | None) -> Source:
    """Return the plan of `types` with the panels of the list at `path`."""
    if types is None:
        problem = Problem(
            subject=path.name,
            sentence=f"{path.name} says where each panel stands, not what it is made of",
            remedy="add --types PLAN.yaml, a plan with site and panel_types, or name the list "
            "in such a plan (panels: list.csv) and give the plan instead",
        )
        raise InputError([problem])
    _refuse_what_is_no_file(types, str(types))
    text, label = read_text(types, "plan", None)
    whole = f"{text}\npanels: {json.dumps(str(path.resolve()))}\n"
    file = read_plan(whole, name=label)
    if file.catalog_path is not None:
        file = replace(file, catalog_path=str(types.parent / file.catalog_path))
    return _from_plan(file, path.name)


def _from_ifc(path: Path) -> Source:
    reading = read_ifc(path)
    return Source(
        plan=reading.plan,
        name=path.name,
        used=_sentences("Used", reading.used),
        assumed=(
            *_sentences("Guessed", reading.guessed),
            *_sentences("Left out", reading.left_out),
        ),
        model=reading,
    )


def _sentences(what: str, told: tuple[str, ...]) -> tuple[Sentence, ...]:
    return tuple(Sentence(text=f"{what}: {words}") for words in told)


def _refuse_what_is_no_file(path: Path, word: str) -> None:
    """Raise InputError for a folder, a missing file, or a word that is no built-in house."""
    if word.strip() and path.is_dir():
        remedy = "name the plan file inside it"
        raise InputError([Problem(subject=word, sentence=f"‘{word}’ is a folder", remedy=remedy)])
    if word.strip() and path.exists():
        return
    names = builtin_house_names()
    near = get_close_matches(word, names, n=1)
    if near and path.suffix.lower() not in ENDINGS:
        remedy = f"did you mean ‘{near[0]}’?"
    else:
        remedy = f"check the path, or take a built-in house: {', '.join(names)}"
    sentence = f"there is no file or built-in house called ‘{word}’"
    raise InputError([Problem(subject=word, sentence=sentence, remedy=remedy)])


def _unknown_ending(path: Path) -> Problem:
    what = f"ends in {path.suffix}" if path.suffix else "has no ending"
    return Problem(
        subject=path.name,
        sentence=f"{path.name} {what}, which says nothing about what it holds",
        remedy=f"name it by its kind: {', '.join(ENDINGS)}",
        file=str(path),
    )
