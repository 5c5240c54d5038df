"""Change a plan text in one place and leave every other letter of it, comments too, as it was."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.nodes import CollectionNode, MappingNode, Node, ScalarNode, SequenceNode

from seamwright.errors import InputError, Problem
from seamwright.io.desk.write import Written, item

_INDENT = "  "


@dataclass(frozen=True, kw_only=True, slots=True)
class Rows:
    """A section that is a list: its text, the span of each row in it, the indent of the dashes.

    `spans` run from the beginning of a row's first line to the end of its last one.
    """

    text: str
    spans: tuple[tuple[int, int], ...]
    indent: str
    end: int


def replace_section(text: str, name: str, section: str) -> str:
    """Return the text with one section (``name:`` and what belongs to it) put in place of the old.

    A section that is not there yet comes at the end.

    Raises
    ------
    InputError
        When the whole plan stands in braces, so that no section has lines of its own.
    """
    span = _section(text, name)
    if span is None:
        return f"{_ended(text)}\n{_ended(section)}"
    start, end, _ = span
    return text[:start] + _ended(section) + text[end:].removeprefix("\n")


def add_row(text: str, section: str, row: Mapping[str, Written]) -> str:
    """Return the text with one more row at the end of a section, which is made if need be."""
    rows = _rows(text, section)
    if rows is None:
        return replace_section(text, section, f"{section}:\n{item(row, _INDENT)}")
    end = rows.end
    return f"{rows.text[:end]}\n{item(row, rows.indent).rstrip()}{rows.text[end:]}"


def replace_row(text: str, section: str, index: int, row: Mapping[str, Written]) -> str:
    """Return the text with row `index` of a section put in place of the old one."""
    rows = _rows(text, section)
    if rows is None:
        raise _refused(section)
    start, end = rows.spans[index]
    return rows.text[:start] + item(row, rows.indent).rstrip() + rows.text[end:]


def remove_row(text: str, section: str, index: int) -> str:
    """Return the text without row `index` of a section; without its last row it reads ``[]``."""
    rows = _rows(text, section)
    if rows is None:
        raise _refused(section)
    if len(rows.spans) == 1:
        return replace_section(rows.text, section, f"{section}: []\n")
    start, end = rows.spans[index]
    return rows.text[:start] + rows.text[end:].removeprefix("\n")


def _rows(text: str, section: str) -> Rows | None:
    """Return the rows of a section, each on lines of its own; None when it has none."""
    span = _section(text, section)
    if span is None or not isinstance(span[2], SequenceNode) or not span[2].value:
        return None
    start, end = span[0], span[1]
    node = span[2]
    if node.flow_style:
        raw = [text[row.start_mark.index : row.end_mark.index] for row in node.value]
        block = f"{section}:\n" + "".join(f"{_INDENT}- {row}\n" for row in raw)
        return _rows(text[:start] + block + text[end:].removeprefix("\n"), section)
    spans = []
    for row in node.value:
        dash = text.rindex("-", 0, row.start_mark.index)
        first = text.rfind("\n", 0, dash) + 1
        spans.append((first, _line_end(text, _last(row))))
    dash = text.rindex("-", 0, node.value[0].start_mark.index)
    indent = text[text.rfind("\n", 0, dash) + 1 : dash]
    return Rows(text=text, spans=tuple(spans), indent=indent, end=spans[-1][1])


def _section(text: str, name: str) -> tuple[int, int, Node] | None:
    """Return where a section begins and where its last line ends, and what it holds."""
    root = _root(text)
    for key, value in root.value:
        if isinstance(key, ScalarNode) and str(key.value) == name:
            end = max(_last(value), key.end_mark.index)
            return key.start_mark.index, _line_end(text, end), value
    return None


def _root(text: str) -> MappingNode:
    try:
        root = YAML(typ="safe", pure=True).compose(text)
    except (YAMLError, ValueError, RecursionError) as error:
        raise _refused("the plan") from error
    if not isinstance(root, MappingNode) or root.flow_style:
        raise _refused("the plan")
    return root


def _last(node: Node) -> int:
    """Return where the last letter of a node stands, before any comment that follows."""
    if isinstance(node, CollectionNode) and not node.flow_style and node.value:
        end = node.value[-1]
        return _last(end[1] if isinstance(node, MappingNode) else end)
    return int(node.end_mark.index)


def _line_end(text: str, place: int) -> int:
    if place > 0 and text[place - 1 : place] == "\n":
        return place - 1
    end = text.find("\n", place)
    return len(text) if end < 0 else end


def _ended(text: str) -> str:
    return text if not text or text.endswith("\n") else f"{text}\n"


def _refused(what: str) -> InputError:
    return InputError(
        [
            Problem(
                subject=what,
                sentence=f"{what} cannot be changed here, because it is written all in braces",
                remedy="write each section of the plan on lines of its own, then try again",
            )
        ]
    )
