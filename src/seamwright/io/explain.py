"""Turn what the models found wrong into sentences with a line and a remedy."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from seamwright.errors import Problem
from seamwright.io.yaml_text import Path_, Tree, YamlText

NOUNS: dict[str, str] = {
    "panel_types": "panel type",
    "storeys": "storey",
    "footprints": "footprint",
    "walls": "wall",
    "roof": "roof part",
    "dormers": "dormer",
    "inner_walls": "inner wall",
    "openings": "opening",
    "penetrations": "penetration",
    "timbers": "timber",
    "panels": "panel",
    "supports": "support",
    "decisions": "decision",
    "overrides": "override",
    "strips": "strip",
    "sealants": "sealant",
    "foams": "foam",
    "beads": "bead rule",
    "materials": "material",
    "films": "film",
    "seals": "seal record",
    "crews": "crew",
    "log": "log entry",
}
"""What one entry of a list is called."""

_NAMED_BY = ("id", "wall", "joint", "signed_by", "kind")
_TYPES = {
    "tuple_type": "a list, with a dash or in [brackets]",
    "list_type": "a list, with a dash or in [brackets]",
    "model_type": "a group of words with values",
    "model_attributes_type": "a group of words with values",
    "dict_type": "a group of words with values",
    "literal_error": "one of the known words",
}


def subject_of(tree: Tree, path: Sequence[str | int]) -> str:
    """Return what a path is called in the user's words: ``opening W3``, ``site``."""
    if not path:
        return "the file"
    section = str(path[0])
    noun = NOUNS.get(section, section)
    if len(path) < 2 or not isinstance(path[1], int) or not isinstance(tree, dict):
        return section
    entries = tree.get(section)
    entry = entries[path[1]] if isinstance(entries, list) and path[1] < len(entries) else None
    if isinstance(entry, dict):
        for key in _NAMED_BY:
            name = entry.get(key)
            if isinstance(name, str):
                return f"{noun} {name[:40]}"
    return f"{noun} no. {path[1] + 1}"


def nearest(word: str, known: Iterable[str]) -> str:
    """Return a remedy naming the nearest known word, and the known words when they are few."""
    words = sorted(set(known))
    close = difflib.get_close_matches(word[:60], words, n=1, cutoff=0.6)
    if close:
        return f"did you mean ‘{close[0]}’?"
    if not words:
        return "there is none yet to name"
    keywords = ", ".join(words[:20]) + (" ..." if len(words) > 20 else "")
    return f"known here: {keywords}"


def one_line(text: str) -> str:
    """Return text that may hold the user's own words, safe to print on one line."""
    return "".join(mark if mark.isprintable() else "·" for mark in " ".join(text.split()))


def problem_at(
    yaml: YamlText, path: Sequence[str | int], sentence: str, remedy: str, *, field: str = ""
) -> Problem:
    """Return a problem placed at a path, its sentence led by what it is about."""
    subject = subject_of(yaml.tree, path)
    place = yaml.place(path)
    about = f"{subject}, {field}" if field else subject
    return Problem(
        subject=one_line(subject),
        sentence=one_line(f"{about}: {sentence}"),
        remedy=one_line(remedy),
        file=yaml.file,
        line=None if place is None else place.line,
        column=None if place is None else place.column,
    )


def explain(error: ValidationError, yaml: YamlText, model: type[BaseModel]) -> list[Problem]:
    """Return every problem of a failed validation, in file order."""
    items = [item for item in error.errors(include_url=False) if not _follows(item)]
    found = [_explain_one(dict(item), yaml, model) for item in items]
    unique = {(problem.sentence, problem.line, problem.column): problem for problem in found}
    return sorted(unique.values(), key=lambda problem: (problem.line or 0, problem.column or 0))


def _follows(item: Mapping[str, Any]) -> bool:
    """Tell whether a list is short only because its entries were wrong."""
    given = item.get("input")
    least: int = item.get("ctx", {}).get("min_length", 0)
    return item["type"] == "too_short" and isinstance(given, list) and len(given) >= least


def _explain_one(item: Mapping[str, Any], yaml: YamlText, model: type[BaseModel]) -> Problem:
    path = _known_path(yaml.tree, item["loc"])
    field = ", ".join(_field_name(part) for part in path[_named_parts(path) :])
    kind: str = item["type"]
    context: Mapping[str, Any] = item.get("ctx", {})
    if kind == "extra_forbidden":
        word = str(item["loc"][-1])
        known = _known_words(model, path[:-1])
        remedy = nearest(word, known)
        about = ", ".join(_field_name(part) for part in path[_named_parts(path) : -1])
        return problem_at(yaml, path, f"unknown word ‘{word[:40]}’", remedy, field=about)
    if kind == "missing" and isinstance(item["loc"][-1], int):
        told, remedy = "a value is missing", "give a value for each axis, as in [12', 8']"
        return problem_at(yaml, path, told, remedy, field=field)
    if kind == "missing":
        word = str(item["loc"][-1])
        return problem_at(yaml, path, f"‘{word}’ is missing", f"add {word}:", field=field)
    if kind == "told":
        return problem_at(yaml, path, context["sentence"], context["remedy"], field=field)
    sentence, remedy = _plain_reason(kind, item, context)
    return problem_at(yaml, path, sentence, remedy, field=field)


def _plain_reason(
    kind: str, item: Mapping[str, Any], context: Mapping[str, Any]
) -> tuple[str, str]:
    given = item.get("input")
    if kind == "literal_error" and isinstance(given, str):
        known = [
            word.strip("' ") for word in str(context["expected"]).replace(" or ", ",").split(",")
        ]
        return f"‘{given[:40]}’ is not a known word here", nearest(given, known)
    if kind in _TYPES:
        return f"{_kind_of(given)} stands here", f"write {_TYPES[kind]}"
    if kind == "too_short":
        least = context.get("min_length", 1)
        return f"{_length_of(given)} stand here", f"give at least {least}"
    if kind == "too_long":
        most = context.get("max_length", 1)
        return f"{_length_of(given)} stand here", f"give at most {most}"
    return f"{_kind_of(given)} cannot be read here", "compare it with the example in the docs"


def _known_path(tree: Tree, loc: Sequence[str | int]) -> Path_:
    """Return the part of an error's location that stands in the file."""
    path: list[str | int] = []
    here: Tree = tree
    for part in loc:
        if isinstance(here, dict) and part in here:
            here = here[str(part)]
            path.append(str(part))
        elif isinstance(here, list) and isinstance(part, int) and part < len(here):
            here = here[part]
            path.append(part)
    return tuple(path)


def _named_parts(path: Path_) -> int:
    """Return how many leading parts of a path the subject already names."""
    return 2 if len(path) > 1 and isinstance(path[1], int) else min(1, len(path))


def _field_name(part: str | int) -> str:
    return f"no. {part + 1}" if isinstance(part, int) else part


def _known_words(model: type[BaseModel], path: Path_) -> list[str]:
    """Return the words a group at `path` may hold."""
    here: list[type[BaseModel]] = [model]
    for part in path:
        if isinstance(part, int):
            continue
        held = [
            field.annotation
            for group in here
            for name, field in group.model_fields.items()
            if part in {name, field.alias}
        ]
        here = [found for annotation in held for found in _models_in(annotation)]
    return [
        field.alias if field.alias is not None else name
        for group in here
        for name, field in group.model_fields.items()
    ]


def _models_in(annotation: object) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    inner = getattr(annotation, "__args__", ())
    return [found for part in inner for found in _models_in(part)]


def _kind_of(given: object) -> str:
    if given is None:
        return "nothing"
    if isinstance(given, dict):
        return "a group"
    return "a list" if isinstance(given, list | tuple) else f"‘{str(given)[:40]}’"


def _length_of(given: object) -> str:
    count = len(given) if isinstance(given, list | tuple | dict | str) else 0
    return "no entries" if count == 0 else f"{count} entries" if count > 1 else "only one entry"
