"""Which face to propose."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.errors import InputError
from seamwright.moisture.verdict.advise import ADVICE, recommend, tell
from seamwright.moisture.verdict.judge import judge
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.types import FaceOption, FaceWord, Recommendation, Series
from seamwright.sources import SOURCES


def option(face: FaceWord, moisture: float, leak: bool = False) -> FaceOption:
    """Return an option whose outer skin stays at one moisture content."""
    series = Series(
        name="outer skin", temperature=np.full(8760, 10.0), humidity=np.full(8760, 0.5),
        moisture=np.full(8760, moisture),
    )  # fmt: skip
    limit = largest_leak([0.1, 1.0], [0.5, -0.5]) if leak else None
    return FaceOption(
        face=face, verdicts=(judge(series),), leak=limit, leak_expected=0.1 if leak else None
    )


def proposed(**moistures: float) -> Recommendation:
    """Return what is proposed for skins of these moisture contents."""
    return recommend([option(face, m) for face, m in moistures.items()])


def test_the_face_with_the_larger_margin_is_proposed() -> None:
    """One face alone, when it keeps enough margin, even where both would be drier."""
    found = proposed(inner=0.12, outer=0.17, both=0.11)
    assert found.face == "inner"
    assert found.margin == pytest.approx(0.4)
    assert [r.face for r in found.ranked] == ["both", "inner", "outer"]
    assert found.sentences[0].startswith("Proposed: the inner face, margin +0.40")
    assert "designer signs" in found.sentences[0]


def test_even_faces_go_to_the_inner() -> None:
    """It can be inspected for longest."""
    assert proposed(outer=0.120, inner=0.121).face == "inner"
    assert proposed(outer=0.120, inner=0.140).face == "outer"


def test_both_faces_where_one_alone_is_too_near_the_limit() -> None:
    """A margin under a tenth is not enough for one face alone."""
    assert proposed(inner=0.19, outer=0.21, both=0.15).face == "both"


def test_none_is_proposed_where_none_stays_within() -> None:
    """It says which comes closest and what else may help; advice is neither right nor wrong."""
    found = proposed(inner=0.21, outer=0.25)
    assert found.face is None
    assert found.margin == pytest.approx(0.20 / 0.21 - 1.0)
    assert "No face keeps this joint within limits" in found.sentences[0]
    assert all(a.agrees is None for a in found.advice)


def test_a_face_that_is_wetter_when_tighter_is_proposed_last() -> None:
    """The drier face is passed over where better work would wet it, unless it alone is within."""
    turned = replace(
        option("outer", 0.12), leak=largest_leak([0.01, 0.4], [-0.2, 0.4]), leak_expected=0.4
    )
    inner, wet = option("inner", 0.18), option("inner", 0.30)
    assert recommend([inner, turned]).face == "inner"
    assert recommend([wet, turned]).face == "outer"


def test_what_tolerates_most_of_its_usual_leak_is_named_where_none_stays() -> None:
    """Of two that are outside, the one that passes at a tenth of its leakage is named with it."""
    outer = replace(
        option("outer", 0.40), leak=largest_leak([0.01, 0.04], [0.3, 0.2]), leak_expected=0.4
    )
    inner = replace(
        option("inner", 0.35), leak=largest_leak([0.01, 0.04], [-0.3, -0.4]), leak_expected=0.4
    )
    assert "the outer face tolerates most, 10% of what" in recommend([inner, outer]).sentences[0]


def test_a_margin_that_the_grid_could_turn_is_called_undecided() -> None:
    """A proposal within 0.05 of its limit says so, one beyond does not."""
    assert "undecided" in proposed(inner=0.195).sentences[0]
    assert "undecided" not in proposed(inner=0.15).sentences[0]


def test_published_advice_is_shown_whether_it_agrees_or_not() -> None:
    """Against an outer face stand the builders in cold climates and the Juneau report."""
    found = proposed(inner=0.19, outer=0.12)
    holders = {a.holder for a in found.advice if a.agrees is False}
    assert {"builders in cold climates", "the report on the Juneau roofs"} <= holders
    assert "Published advice that differs" in found.sentences[-1]


def test_a_table_by_zone_that_differs_is_told() -> None:
    """The face by climate zone stands beside the computed one."""
    options = [option("inner", 0.19), option("outer", 0.12)]
    found = recommend(options, "inner", "common practice, no source", ["no rain"])
    assert found.advice[-1].agrees is False
    assert "table of faces by climate zone: the inner face" in found.sentences[-1]
    assert found.assumed == ("no rain",)


def test_the_leak_limit_is_told_with_how_far_it_is_from_what_is_expected() -> None:
    """Half a decade above the expected leak reads as 3.2 times."""
    found = recommend([option("inner", 0.12, leak=True)])
    assert "3.2 times what is expected" in found.ranked[0].sentence


def test_a_verdict_reads_as_a_sentence() -> None:
    """Place, state, what binds, value, limit and season."""
    told = tell(option("inner", 0.21).verdicts[0])
    assert told == (
        "outer skin does NOT stay within limits: moisture of the wood, wettest 30 days 21.0 % "
        "against 20 %, worst in winter"
    )


def test_advice_cites_the_register_or_says_where_it_was_read() -> None:
    """No opinion without a source."""
    assert all(a.source in SOURCES or "not named" in a.source for a in ADVICE)


NO_VERDICT = FaceOption(face="inner", verdicts=())


@pytest.mark.parametrize("options", [[], [option("inner", 0.1)] * 2, [NO_VERDICT]])
def test_what_cannot_be_compared_is_refused(options: list[FaceOption]) -> None:
    """No option, one face twice, or an option without verdict."""
    with pytest.raises(InputError, match="cannot be compared"):
        recommend(options)
