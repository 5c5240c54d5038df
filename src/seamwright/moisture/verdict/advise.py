"""Compare the faces a strip may go on and propose one, beside what published advice says.

A proposal to the building's designer, who signs. The advice is data with sources; it is shown
whether it agrees or not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from seamwright.errors import InputError, Problem
from seamwright.moisture.verdict.judge import worst
from seamwright.moisture.verdict.types import (
    UNDECIDED,
    Advice,
    CriterionName,
    FaceOption,
    FaceWord,
    Ranked,
    Recommendation,
    Verdict,
)
from seamwright.sources import COMMON_PRACTICE

ENOUGH = 0.10
"""Margin from which one face alone is proposed. [-] common practice, no source"""

EVEN = 0.02
"""Margins that differ by less count as equal. [-] common practice, no source"""

ADVICE: tuple[Advice, ...] = (
    Advice(
        holder="makers of panels",
        says="a well sealed panel needs no further air layer on either face",
        faces=(),
        source="read on public pages, not named",
    ),
    Advice(
        holder="builders in cold climates",
        says="a strip on the inside as well, since foam and beads crack in time",
        faces=("inner", "both"),
        source="read on public pages, not named",
    ),
    Advice(
        holder="a column of building science",
        says="both the outer and the inner connections sealed, for long life",
        faces=("both",),
        source="read on public pages, not named",
    ),
    Advice(
        holder="the report on the Juneau roofs",
        says="room air that reaches the joint wets the outer skin at the ridge; seal the inside",
        faces=("inner", "both"),
        source="sipa-juneau-2002",
    ),
    Advice(
        holder="repairers of panel roofs",
        says="a vented roof over the panels, whatever the face",
        faces=("inner", "outer", "both"),
        source="read on public pages, not named",
    ),
)
"""Published opinions on the face of the air seal, which do not agree with each other."""

BINDS: dict[CriterionName, str] = {
    "mold": "mold index",
    "decay": "decay",
    "wettest_month": "wettest 30 days",
    "wettest_week": "wettest 7 days",
    "month_ahead": "rise from year to year",
    "surface_humidity": "humidity at the surface",
}
"""Criteria in words."""

_WORDS: dict[FaceWord, str] = {
    "inner": "the inner face",
    "outer": "the outer face",
    "both": "both faces",
}
_ORDER: dict[FaceWord, int] = {"inner": 0, "outer": 1, "both": 2}


def recommend(
    options: Sequence[FaceOption],
    proposed_by_zone: FaceWord | None = None,
    zone_source: str = COMMON_PRACTICE,
    assumed: Sequence[str] = (),
) -> Recommendation:
    """Return the face to propose for a joint, from one option per face.

    One face alone is proposed where it keeps a margin of `ENOUGH`; of two that do, the one with the
    larger margin, the inner where they are even, because it can be inspected for longest. Else the
    option with the largest margin. One that is wetter when tighter is proposed only where nothing
    else stays within limits: good work would fail it. Where none stays, none is proposed, and the
    one that tolerates most of its usual leakage is named.

    `proposed_by_zone` is what a table by climate zone would say; where it differs, that is told.

    Raises
    ------
    InputError
        When there is no option, a face comes twice, or an option has no verdict.
    """
    _check(options)
    ranked = sorted((_ranked(o) for o in options), key=lambda r: (-r.margin, _ORDER[r.face]))
    turned = frozenset(
        o.face for o in options if o.leak is not None and o.leak.level is None and o.leak.ranges
    )
    chosen = _chosen(ranked, turned)
    face = None if chosen is None else chosen.face
    advice = tuple(
        replace(a, agrees=None if face is None else face in a.faces)
        for a in (*ADVICE, *_zone_advice(proposed_by_zone, zone_source))
    )
    best = ranked[0] if chosen is None else chosen
    return Recommendation(
        face=face,
        margin=best.margin,
        ranked=tuple(ranked),
        sentences=(
            _proposal(chosen, ranked, options),
            *(r.sentence for r in ranked),
            *_told(advice, face),
        ),
        advice=advice,
        assumed=tuple(assumed),
    )


def tell(verdict: Verdict) -> str:
    """Return a verdict as a sentence: inside or outside, what binds, when it is worst."""
    least = next(c for c in verdict.criteria if c.name == verdict.binding)
    state = "stays within limits" if verdict.within else "does NOT stay within limits"
    wood, rise = least.unit == "kg/kg", verdict.mold_rise
    value = f"{100 * least.value:.1f} %" if wood else f"{least.value:.2f}"
    limit = f"{100 * least.limit:g} %" if wood else f"{least.limit:g}"
    return (
        f"{verdict.place} {state}: {least.title} {value} against {limit}, worst in {least.season}"
        + (f"; still {verdict.trend} when the run ends" if verdict.trend in _MOVING else "")
        + (f"; its mold index rises by {rise:.1f} a year" if rise >= _RISING else "")
    )


_MOVING = ("drying", "wetting")
_RISING = 0.05


def _ranked(option: FaceOption) -> Ranked:
    least = worst(option.verdicts)
    words = _WORDS[option.face]
    leak = "" if option.leak is None else f" {option.leak.advice}"
    if option.leak is not None and option.leak.level is not None and option.leak_expected:
        ratio = option.leak.level / option.leak_expected
        leak += f" That is {ratio:.2g} times what is expected of it."
    return Ranked(
        face=option.face,
        margin=least.margin,
        place=least.place,
        binding=least.binding,
        sentence=f"Strip on {words}: {tell(least)} (margin {least.margin:+.2f}).{leak}",
    )


def _chosen(ranked: Sequence[Ranked], turned: frozenset[FaceWord]) -> Ranked | None:
    """Return the option to propose, one that is wetter when tighter only where nothing else is."""
    within = [r for r in ranked if r.margin > 0.0]
    within = [r for r in within if r.face not in turned] or within
    if not within:
        return None
    alone = [r for r in within if r.face != "both" and r.margin >= ENOUGH]
    pool = alone or within
    top = max(r.margin for r in pool)
    return min((r for r in pool if r.margin >= top - EVEN), key=lambda r: _ORDER[r.face])


def _proposal(
    chosen: Ranked | None, ranked: Sequence[Ranked], options: Sequence[FaceOption]
) -> str:
    if chosen is None:
        return (
            f"No face keeps this joint within limits as usually made; {_closest(ranked, options)}. "
            "Ask the designer: less humidity indoors, a tighter joint, covers that let it dry."
        )
    others = "; ".join(f"{_WORDS[r.face]} {r.margin:+.2f}" for r in ranked if r is not chosen)
    beside = f" (beside {others})" if others else ""
    close = ""
    if chosen.margin < UNDECIDED:
        close = " The grid moves margins by as much: whether it stays within is undecided."
    return (
        f"Proposed: {_WORDS[chosen.face]}, margin {chosen.margin:+.2f}{beside}. What decides is "
        f"the {BINDS[chosen.binding]} at {chosen.place}.{close} It is a proposal: the building's "
        "designer signs."
    )


def _closest(ranked: Sequence[Ranked], options: Sequence[FaceOption]) -> str:
    """Return which option comes closest: by what it tolerates of its usual leakage where that is
    known, else by its margin.
    """
    tolerated = {
        o.face: o.leak.level / o.leak_expected
        for o in options
        if o.leak is not None and o.leak.level is not None and o.leak_expected
    }
    if tolerated:
        face = max(tolerated, key=lambda f: (tolerated[f], -_ORDER[f]))
        word = "tolerate" if face == "both" else "tolerates"
        return f"{_WORDS[face]} {word} most, {tolerated[face]:.0%} of what usually leaks"
    best = ranked[0]
    none = "" if all(o.leak is None for o in options) else "none does so however tight; "
    word = "come" if best.face == "both" else "comes"
    return f"{none}{_WORDS[best.face]} {word} closest (margin {best.margin:+.2f})"


def _zone_advice(face: FaceWord | None, source: str) -> tuple[Advice, ...]:
    if face is None:
        return ()
    return (
        Advice(
            holder="the table of faces by climate zone",
            says=f"{_WORDS[face]} in this climate zone",
            faces=(face,),
            source=source,
        ),
    )


def _told(advice: Sequence[Advice], face: FaceWord | None) -> tuple[str, ...]:
    if face is None:
        return ()
    against = [f"{a.holder}: {a.says}" for a in advice if a.agrees is False]
    return () if not against else (f"Published advice that differs: {'; '.join(against)}.",)


def _check(options: Sequence[FaceOption]) -> None:
    faces = [o.face for o in options]
    empty = [o.face for o in options if not o.verdicts]
    if faces and len(set(faces)) == len(faces) and not empty:
        return
    told = f"{len(faces)} face options cannot be compared"
    remedy = "give one option per face, each with the verdict on one place or more"
    raise InputError([Problem(subject="faces", sentence=told, remedy=remedy)])
