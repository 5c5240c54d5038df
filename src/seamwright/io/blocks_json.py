"""Sheets kept as JSON: blocks out, blocks back in, nothing lost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from seamwright.io.json_text import Json
from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Figure,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.seals.types import Sentence

_KINDS = {k.__name__: k for k in (Caution, Figure, Heading, Paragraph, Quantity, Sentence, Table)}
_IS = "is"


def blocks_document(blocks: tuple[Block, ...]) -> list[Json]:
    """Return blocks as JSON, each record with the name of its kind under ``is``."""
    return [_out(block) for block in blocks]


def blocks_of(document: list[Json]) -> tuple[Block, ...]:
    """Return the blocks of a document of `blocks_document`.

    Raises
    ------
    ValueError
        When something in it is not a block.
    """
    blocks = tuple(_in(item) for item in document)
    wanted = (Caution, Figure, Heading, Paragraph, Table)
    if not all(isinstance(block, wanted) for block in blocks):
        raise ValueError("not a list of blocks")
    return blocks


def _out(value: Block | Cell | tuple[Any, ...] | Mapping[str, float]) -> Any:  # noqa: ANN401 JSON
    if isinstance(value, tuple):
        return [_out(item) for item in value]
    if is_dataclass(value):
        told = {f.name: _out(getattr(value, f.name)) for f in fields(value)}
        return {_IS: type(value).__name__, **told}
    return dict(value) if isinstance(value, Mapping) else value


def _in(value: Any) -> Any:  # noqa: ANN401 JSON
    if isinstance(value, list):
        return tuple(_in(item) for item in value)
    if isinstance(value, dict) and _IS in value:
        kind = _KINDS.get(value[_IS])
        if kind is None:
            raise ValueError(f"no kind of block is called {value[_IS]}")
        return kind(**{name: _in(item) for name, item in value.items() if name != _IS})
    return value
