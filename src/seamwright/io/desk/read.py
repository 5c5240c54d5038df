"""Read a plan text that stands alone: it may name no other file."""

from __future__ import annotations

from seamwright.errors import InputError, Problem
from seamwright.io.plan import PlanFile, read_plan
from seamwright.io.yaml_text import YamlText, read_yaml

_ELSEWHERE: dict[tuple[str, ...], str] = {
    ("panels",): "bring the list in as a file of its own, or write the panels into the plan",
    ("catalog",): "write the catalog's content into the plan, under catalog:",
    ("site", "weather"): "take it out, and bring the hours along when you ask what hangs on them",
}
"""Where a plan may name a file beside it, and what to do instead."""


def read_lone_plan(text: str, *, name: str = "plan") -> PlanFile:
    """Return the plan of a text, as `read_plan` does, refusing what leads to other files.

    Raises
    ------
    InputError
        With every problem found.
    """
    yaml = read_yaml(text.encode("utf-8", "surrogatepass"), what="plan", name=name)
    refuse_other_files(yaml)
    return read_plan(text.encode("utf-8"), name=name)


def refuse_other_files(yaml: YamlText) -> None:
    """Raise InputError where a plan names a file beside it, which a page cannot bring along."""
    problems = []
    for path, remedy in _ELSEWHERE.items():
        named = yaml.tree
        for word in path:
            named = named.get(word) if isinstance(named, dict) else None
        if not isinstance(named, str):
            continue
        section, place = path[-1], yaml.place(path)
        problems.append(
            Problem(
                subject=section,
                sentence=f"{section} names the file ‘{named[:40]}’, which is not in the desk",
                remedy=remedy,
                file=yaml.file,
                line=None if place is None else place.line,
                column=None if place is None else place.column,
            )
        )
    if problems:
        raise InputError(problems)
