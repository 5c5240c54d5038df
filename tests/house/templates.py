"""Every sentence template that the source holds, found by reading it.

Run ``python -m tests.house.templates`` to print those that have no Spanish yet.
"""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2] / "src" / "seamwright"

NOT_ON_THE_DESK = {
    "app/contract": "patterns of what is sent",
    "app/make.py": "the description for programs",
    "app/pages_served.py": "headers of files",
    "app/routes": "addresses; the sentences of routes are named in ROUTES below",
    "cli": "printed on a terminal; what the desk gets from it is named in COMMANDS below",
    "app/guard.py": "what stands in front of every route speaks to programs",
    "app/apart.py": "written into the plan's text as remarks",
    "climate/counties.py": "names of counties",
    "climate/monthly.py": "wrong use by another module",
    "geometry": "wrong use by another module",
    "leakage/combine.py": "wrong use by another module",
    "leakage/prior_rows.py": "where each figure of the table of leaks comes from, in its docs",
    "moisture/conduction.py": "wrong use by another module",
    "moisture/layers.py": "wrong use by another module",
    "moisture/materials.py": "names and sources of materials, in their docs",
    "moisture/outlines.py": "wrong use by another module",
    "moisture/steady.py": "wrong use by another module",
    "moisture/transient": "sources of materials, in their docs, and wrong use by another module",
    "schedule/verify_weather.py": "a check of the solver by the program itself",
    "schedule/verify.py": "a check of the solver by the program itself",
    "solve/model.py": "names within the solver",
    "solve/soft.py": "names within the solver",
    "solve/waits.py": "names within the solver",
    "data": "files, not sentences",
    "draw": "drawings of the packet; those of the desk are named in DRAWINGS below",
    "io/bcf.py": "a file for other programs",
    "io/icalendar.py": "a file for other programs",
    "io/ifc/holes.py": "written into the plan's text as remarks",
    "io/ifc/layers.py": "written into the plan's text as remarks",
    "io/ifc/notes.py": "written into the plan's text as remarks",
    "io/ifc/plates.py": "written into the plan's text as remarks",
    "io/ifc/sides.py": "written into the plan's text as remarks",
    "io/ifc/site.py": "written into the plan's text as remarks",
    "io/ifc/sort.py": "written into the plan's text as remarks",
    "io/ifc/seal_values.py": "a file for other programs",
    "io/ifc/write.py": "a file for other programs",
    "io/ifc/write_joints.py": "a file for other programs",
    "io/ifc/write_shell.py": "a file for other programs",
    "io/blocks_json.py": "a file for other programs",
    "io/questions.py": "a file for other programs",
    "io/product_file.py": "strip limits by the hour, on a terminal only",
    "io/tape_json.py": "strip limits by the hour, on a terminal only",
    "io/materials_file.py": "materials of one's own, on a terminal only",
    "io/materials_model.py": "materials of one's own, on a terminal only",
    "io/moisture_margins.py": "margins of one's own, on a terminal only",
    "io/leak_figures.py": "figures of one's own, on a terminal only",
    "io/work_records.py": "records of one's own, on a terminal only",
    "pdf": "the printed packet",
    "report": "the printed packet; what the desk takes from it is named in REPORTS below",
    "schedule/learn.py": "learned from records, on a terminal only",
    "schedule/tape.py": "strip limits by the hour, on a terminal only",
    "schedule/tape_checks.py": "strip limits by the hour, on a terminal only",
    "schedule/tape_limits.py": "strip limits by the hour, on a terminal only",
    "sources": "titles of works, which are quoted as they are",
    "store/migrations": "the store's own history",
    "words": "this is where they are found",
}
"""What no page shows, and why: sentences in there need no Spanish."""

ROUTES = ("corrections", "decisions", "houses", "jobs", "results", "revisions", "uploads")
COMMANDS = ("desk_work", "days_input", "days_weather", "fan_house", "forecast_target",
            "hunt_input", "infiltration_year", "source")  # fmt: skip
DRAWINGS = ("section", "sectionnotes", "sectiontypes", "sheet", "strips", "axonometric", "legend",
            "facing", "cutparts", "ink")  # fmt: skip
REPORTS = ("words", "hunt_sheet", "dryness_sheet", "order_tables", "schedule_tables",
           "register_tables", "workbook", "joint_dryness", "dry_joints", "dry_probes",
           "dryness_types", "house_changes", "seal_types", "outlook", "joint_heat",
           "panel_condensation")  # fmt: skip

SHOWN = (
    *(f"app/routes/{name}.py" for name in ROUTES),
    *(f"cli/{name}.py" for name in COMMANDS),
    *(f"draw/{name}.py" for name in DRAWINGS),
    *(f"report/{name}.py" for name in REPORTS),
)

_PROSE = re.compile(r"[^\W\d_]{2,}[,.;:)’']* +[‘'(]?[^\W\d_]{2,}")
_FORMAT = re.compile(r"\{(\w+)[:!][^{}]*\}")
_LONG_WORD = re.compile(r"[^\W\d_]{3,}")
_PLAIN = {"float", "int", "str", "len", "abs", "round", "join", "map", "sorted", "plain", "shown",
          "self", "strip", "replace", "removesuffix", "rstrip", "lower", "math",
          "format"}  # fmt: skip


def modules() -> list[Path]:
    """Return every module whose sentences may reach a page."""
    found = []
    for path in sorted(ROOT.rglob("*.py")):
        name = path.relative_to(ROOT).as_posix()
        hidden = any(name == held or name.startswith(f"{held}/") for held in NOT_ON_THE_DESK)
        if name in SHOWN or not hidden:
            found.append(path)
    return found


def templates(path: Path) -> Iterator[str]:
    """Return the sentence templates of a module in order, ``{name}`` for what is filled in."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    passed = _docs(tree) | _never_said(tree)
    for node in ast.walk(tree):
        if id(node) in passed or not isinstance(node, ast.Constant | ast.JoinedStr | ast.BinOp):
            continue
        text = _text(node, {})
        if text is None:
            continue
        if isinstance(node, ast.JoinedStr | ast.BinOp):
            passed |= {id(part) for part in _literals(node)}
        if _is_prose(text):
            yield text


def _is_prose(text: str) -> bool:
    bare = re.sub(r"\{\w+\}", " ", text)
    if re.search(r"^/|://|\\[sdb]|\(\?", text) or "_" in bare.replace("zone_edition", ""):
        return _PROSE.search(bare) is not None and len(bare.split()) > 4 and "(?" not in bare
    if _PROSE.search(bare) is not None:
        return True
    apart = re.search(r"(^|[\s(‘])[^\W\d_]{3,}([\s,.;:)’]|$)", re.sub(r"\{\w+\}", "0", text))
    return "{" in text and " " in text and apart is not None and _LONG_WORD.search(bare) is not None


def _text(node: ast.AST, names: dict[str, str]) -> str | None:
    """Return the template of a string, f-string or sum of strings; None for anything else."""
    if isinstance(node, ast.Constant):
        return _FORMAT.sub(r"{\1}", node.value) if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        parts = []
        for part in node.values:
            if isinstance(part, ast.Constant):
                parts.append(str(part.value))
            elif isinstance(part, ast.FormattedValue):
                parts.append(f"{{{_name(part.value, names)}}}")
        return "".join(parts)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        sides = [_text(side, names) for side in (node.left, node.right)]
        if sides == [None, None]:
            return None
        return "".join(
            f"{{{_name(side, names)}}}" if text is None else text
            for side, text in zip((node.left, node.right), sides, strict=True)
        )
    return None


def _name(node: ast.AST, names: dict[str, str]) -> str:
    """Return a name for what is filled in, another for each expression of a sentence."""
    told = ast.unparse(node)
    if told not in names:
        words = [w for w in _identifiers(node) if w not in _PLAIN]
        wanted = words[0].strip("_").lower() if words else "what"
        taken = set(names.values())
        again = (f"{wanted}{n}" for n in range(2, 99))
        names[told] = wanted if wanted not in taken else next(w for w in again if w not in taken)
    return names[told]


def _identifiers(node: ast.AST) -> list[str]:
    """Return the names in an expression, the most telling first."""
    if isinstance(node, ast.Attribute):
        inner = _identifiers(node.value)
        return [inner[0] if node.attr == "id" and inner else node.attr, *inner]
    if isinstance(node, ast.Name):
        return [node.id]
    if isinstance(node, ast.Call):
        given = [word for part in node.args for word in _identifiers(part)]
        return [*given, *_identifiers(node.func)]
    if isinstance(node, ast.Subscript):
        return [*_identifiers(node.value), *_identifiers(node.slice)]
    if isinstance(node, ast.IfExp):
        return [*_identifiers(node.body), *_identifiers(node.orelse), *_identifiers(node.test)]
    return [word for part in ast.iter_child_nodes(node) for word in _identifiers(part)]


def _literals(node: ast.AST) -> Iterator[ast.AST]:
    """Return the parts of an f-string or sum that are its own words."""
    if isinstance(node, ast.BinOp):
        for side in (node.left, node.right):
            if isinstance(side, ast.Constant | ast.JoinedStr | ast.BinOp):
                yield side
                yield from _literals(side)
    elif isinstance(node, ast.JoinedStr):
        for part in node.values:
            if isinstance(part, ast.Constant):
                yield part
            elif isinstance(part, ast.FormattedValue) and part.format_spec is not None:
                yield from ast.walk(part.format_spec)


def _docs(tree: ast.AST) -> set[int]:
    """Return the strings that stand alone: they say what a thing is to whoever reads the source."""
    return {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }


def _never_said(tree: ast.AST) -> set[int]:
    """Return the strings that are no sentences: patterns, annotations, and what errors hide."""
    passed = set[int]()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute | ast.Name):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else node.func.id
            if name in {"compile", "Query", "Path", "File", "Form", "Field", "exec_driver_sql",
                        "execute", "match", "fullmatch", "search", "sub", "split"}:  # fmt: skip
                passed |= {id(part) for part in ast.walk(node)}
        if isinstance(node, ast.AnnAssign):
            passed |= {id(part) for part in ast.walk(node.annotation)}
        if isinstance(node, ast.Assert):
            passed |= {id(part) for part in ast.walk(node)}
    return passed


def every_template() -> dict[str, str]:
    """Return each template with the module that holds it first."""
    found: dict[str, str] = {}
    for path in modules():
        for text in templates(path):
            found.setdefault(text, path.relative_to(ROOT).as_posix())
    return found


if __name__ == "__main__":
    from seamwright.words import read_catalog

    for template, module in every_template().items():
        if template not in read_catalog("es"):
            print(module, json.dumps(template, ensure_ascii=False))  # noqa: T201 a tool
