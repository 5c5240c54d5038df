"""Check that the entities of a model point where they may, before any other code follows them.

The geometry kernel trusts the file: a ring of placements or a reference to the wrong kind of
entity can bring the whole process down. Both are found here in the text, with their line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from seamwright.io.ifc.types import Entity

Graph: TypeAlias = dict[int, tuple[int, ...]]
Slots: TypeAlias = tuple[tuple[str, frozenset[str]], ...]
"""Name and allowed entities of each attribute of an entity, in order."""

_ENTITY = re.compile(rb"#(\d+)\s*=\s*([A-Za-z0-9_]+)\s*\((.*)\)\s*$", re.DOTALL)
_NUMBER = re.compile(rb"#(\d+)\s*=")
_REF = re.compile(rb"#(\d+)")
_TOKEN = re.compile(rb"[(),]|#(\d+)")
_STRING = re.compile(rb"'(?:[^']|'')*'")
_COMMENT = re.compile(rb"/\*.*?\*/", re.DOTALL)


class ReferenceFaultError(Exception):
    """A reference that leads nowhere good: what is wrong, and on which line."""

    def __init__(self, sentence: str, line: int) -> None:
        super().__init__(sentence)
        self.sentence, self.line = sentence, line


@dataclass(frozen=True, slots=True)
class _Statement:
    line: int
    number: int
    kind: str
    values: bytes


def check_references(ifc: Entity, data: bytes, schema: str) -> None:
    """Check numbers, targets, rings and kinds of all references of a model.

    Raises
    ------
    ReferenceFaultError
        For the first fault in the order of the file: an entity given twice, a reference to a
        missing entity or to one of a kind the schema does not allow there, or a ring.
    """
    statements: dict[int, _Statement] = {}
    graph: Graph = {}
    for statement in _statements(data):
        first = statements.get(statement.number)
        if first is not None:
            raise ReferenceFaultError(
                f"entity #{statement.number} stands twice in the file (first on line {first.line})",
                statement.line,
            )
        statements[statement.number] = statement
        graph[statement.number] = tuple(int(r) for r in _REF.findall(statement.values))
    if not graph:
        raise ReferenceFaultError("the file holds no entities", 1)
    slots = _Schema(ifc, schema)
    for statement in statements.values():
        _check_targets(statement, statements, slots, graph)
    ring = _ring(graph)
    if ring is not None:
        raise ReferenceFaultError(
            f"entity #{ring} points back to itself through others", statements[ring].line
        )


class _Schema:
    """The entities each attribute may point to, looked up once for each kind of entity."""

    def __init__(self, ifc: Entity, schema: str) -> None:
        self._schema = ifc.schema_by_name(_family(schema))
        self._slots: dict[str, Slots | None] = {}

    def of(self, kind: str) -> Slots | None:
        """Return the slots of a kind of entity, None when the schema does not know it."""
        if kind not in self._slots:
            try:
                entity = self._schema.declaration_by_name(kind).as_entity()
            except RuntimeError:
                entity = None
            self._slots[kind] = None if entity is None else _slots_of(entity)
        return self._slots[kind]


def _family(schema: str) -> str:
    return next(name for name in ("IFC4X3", "IFC4", "IFC2X3") if schema.startswith(name))


def _slots_of(entity: Entity) -> Slots:
    return tuple(
        (str(attribute.name()), frozenset(_allowed(attribute.type_of_attribute())))
        for attribute in entity.all_attributes()
    )


def _allowed(kind: Entity) -> set[str]:
    """Return the names of all entities that a value of this type may point to."""
    if kind.as_aggregation_type() is not None:
        return _allowed(kind.as_aggregation_type().type_of_element())
    if kind.as_named_type() is not None:
        return _named(kind.as_named_type().declared_type())
    return set()


def _named(declared: Entity) -> set[str]:
    if declared.as_entity() is not None:
        entity = declared.as_entity()
        return {str(entity.name()).upper()}.union(*(_named(s) for s in entity.subtypes()))
    if declared.as_select_type() is not None:
        return set().union(*(_named(s) for s in declared.as_select_type().select_list()))
    if declared.as_type_declaration() is not None:
        return _allowed(declared.as_type_declaration().declared_type())
    return set()


def _check_targets(
    statement: _Statement, statements: dict[int, _Statement], schema: _Schema, graph: Graph
) -> None:
    if not graph[statement.number]:
        return
    slots = schema.of(statement.kind)
    for index, ref in _references(statement.values):
        target = statements.get(ref)
        if target is None:
            raise ReferenceFaultError(
                f"entity #{statement.number} points to #{ref}, which is not in the file",
                statement.line,
            )
        if slots is None or index >= len(slots):
            continue
        name, allowed = slots[index]
        if target.kind not in allowed:
            raise ReferenceFaultError(
                f"entity #{statement.number} ({statement.kind}) has #{ref}, "
                f"of kind {target.kind}, as its {name}, which the schema does not allow",
                statement.line,
            )


def _references(values: bytes) -> Iterator[tuple[int, int]]:
    """Return the place of the attribute and the number of every reference in it."""
    depth = index = 0
    for token in _TOKEN.finditer(values):
        mark = token.group()
        if mark == b"(":
            depth += 1
        elif mark == b")":
            depth -= 1
        elif mark == b",":
            index += depth == 0
        else:
            yield index, int(token.group(1))


def _statements(data: bytes) -> Iterator[_Statement]:
    """Return every entity; a statement may span several lines."""
    text = _STRING.sub(lambda m: b"''" + b"\n" * m.group().count(b"\n"), data)
    text = _COMMENT.sub(lambda m: b"\n" * m.group().count(b"\n"), text)
    line = 1
    for statement in text.split(b";"):
        head = len(statement) - len(statement.lstrip())
        at = line + statement.count(b"\n", 0, head)
        line += statement.count(b"\n")
        body = statement.strip()
        match = _ENTITY.match(body)
        if match is not None:
            kind = match.group(2).decode("ascii").upper()
            yield _Statement(at, int(match.group(1)), kind, match.group(3))
        elif _NUMBER.match(body):
            raise ReferenceFaultError(f"this is no entity: {_shown(body)}", at)


def _shown(body: bytes) -> str:
    text = body[:60].decode("ascii", "replace")
    return "".join(c if c.isprintable() else " " for c in text)


def _ring(graph: Graph) -> int | None:
    """Return an entity on a ring of references, or None when there is none."""
    done: set[int] = set()
    for root in graph:
        if root in done:
            continue
        path: set[int] = {root}
        stack = [(root, iter(graph[root]))]
        while stack:
            node, rest = stack[-1]
            child = next((c for c in rest if c not in done), None)
            if child is None:
                stack.pop()
                path.discard(node)
                done.add(node)
            elif child in path:
                return child
            else:
                path.add(child)
                stack.append((child, iter(graph[child])))
    return None
