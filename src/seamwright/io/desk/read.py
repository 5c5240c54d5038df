"""Read a plan text that stands alone: it may name no other file."""

from __future__ import annotations

from seamwright.errors import InputError, Problem
from seamwright.io.plan import PlanFile, read_plan
from seamwright.io.yaml_text import YamlText, read_yaml

_ELSEWHERE = {
    "panels": "bring the list in as a file of its own, or write the panels into the plan",
    "catalog": "write the catalog's content into the plan, under catalog:",
}


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
    if not isinstance(yaml.tree, dict):
        return
    problems = []
    for section, remedy in _ELSEWHERE.items():
        named = yaml.tree.get(section)
        if not isinstance(named, str):
            continue
        place = yaml.place((section,))
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
