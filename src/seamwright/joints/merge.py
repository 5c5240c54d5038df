"""One joint for one straight line: pieces that an extra corner in an outline has parted."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from seamwright.geometry.types import Segment, Vec3, dot
from seamwright.joints.draft import Draft

_SAME = 0.001
"""Pieces whose ends lie within this of each other, and whose lines do, are one. [m]"""

_STRAIGHT = 0.9999
"""Cosine of the angle within which two pieces run on in one line. [-]"""


def merge_pieces(drafts: Sequence[Draft]) -> list[Draft]:
    """Return the drafts with pieces of one line between the same two parts joined end to end.

    The steps and openings of the longest piece speak for the whole.
    """
    groups: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for at, draft in enumerate(drafts):
        parts = (draft.panels, draft.surface, draft.members)
        groups[*parts, draft.contact, draft.label].append(at)
    result: list[Draft | None] = list(drafts)
    for rows in groups.values():
        if len(rows) > 1:
            _merge_group(result, rows)
    return [draft for draft in result if draft is not None]


def _merge_group(result: list[Draft | None], rows: list[int]) -> None:
    """Join what runs on within one group, in place; joined pieces leave None behind."""
    along = _known(result, rows[0]).along
    rows = sorted(rows, key=lambda at: dot(_known(result, at).line.start, along))
    for before, after in pairwise(rows):
        first, second = _known(result, before), _known(result, after)
        if _runs_on(first, second):
            result[after] = _joined(first, second)
            result[before] = None


def _known(result: Sequence[Draft | None], at: int) -> Draft:
    draft = result[at]
    assert draft is not None
    return draft


def _runs_on(first: Draft, second: Draft) -> bool:
    straight = dot(first.along, second.along) > _STRAIGHT
    return straight and math.dist(first.line.end, second.line.start) <= _SAME


def _joined(first: Draft, second: Draft) -> Draft:
    longer = first if first.line.length >= second.line.length else second
    line = Segment(start=first.line.start, end=second.line.end)
    return replace(
        longer,
        line=line,
        along=_unit(line),
        inner=_spanned(first.inner, second.inner),
        outer=_spanned(first.outer, second.outer),
        uses=first.uses + second.uses,
        gap=min(first.gap, second.gap),
    )


def _spanned(first: Segment | None, second: Segment | None) -> Segment | None:
    if first is None or second is None:
        return second if first is None else first
    return Segment(start=first.start, end=second.end)


def _unit(line: Segment) -> Vec3:
    size = max(line.length, 1e-12)
    a, b = line.start, line.end
    return ((b[0] - a[0]) / size, (b[1] - a[1]) / size, (b[2] - a[2]) / size)
