"""Each place's leak as chances over a grid of sizes: the table that the hunt works on.

A row is one story of a place: a defect or not (asked apart only where somebody looked or mended),
and at which mending, if any, the mend held. Rows of a place stand together, in the places' order.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from seamwright.leakage.evidence import Floats, log_chance, spot_share
from seamwright.leakage.hunt_types import Event, FanTest, HuntModel, HuntPrior, Look, Mend
from seamwright.leakage.places import follows_crew

Ints = NDArray[np.intp]

CELLS = 64
"""Sizes per place, evenly spaced in the logarithm (a step of 10 to 17 %). Solver setting, by the
comparison with whole houses drawn in tests/leakage/test_hunt.py."""

_TAIL_LOW, _TAIL_HIGH = 3.5, 4.0
"""Solver setting: standard deviations below the well-made part and above either part's median that
the sizes reach."""
_BASES = 16
"""Quantiles of the well-made part over which the sum of both parts is worked out. Solver
setting."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """A look as it bears on one row: the logarithm of the flow at the searched spot is
    the row's size plus `shift`.
    """

    row: int
    look: Look
    shift: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """All rows. `place`, `starts` tie rows to places.

    `size` (R, G) is ln(leak) [ln m³/s] for a crew like the priors'; `log_mass` its chances and
    `defect` the chance that there was a defect, by size; `broken` 1 where it is still there (R,);
    `crew` the crew's number or -1; `weights` the multiplier in each test (R, T), `now` the one
    that holds today; `spread_out` the share sensed at one spot without a defect (R,).
    """

    place: Ints
    starts: Ints
    size: Floats
    log_mass: Floats
    defect: Floats
    broken: Floats
    crew: Ints
    weights: Floats
    now: Floats
    spread_out: Floats
    seen: tuple[Seen, ...]
    crews: tuple[str, ...]
    tests: tuple[FanTest, ...]


def make_grid(priors: Sequence[HuntPrior], diary: Sequence[Event], model: HuntModel) -> Grid:
    """Return the rows of every place under the diary; nothing is weighed by fan tests yet."""
    tests = tuple(event for event in diary if isinstance(event, FanTest))
    looks, mends = _by_place(diary)
    size, masses, has_defect = _sizes(priors)
    crews = tuple(sorted({c for p in priors if (c := _crew(p)) is not None}))
    rows = _Rows(model=model, tests=tests, diary=tuple(diary))
    for index, prior in enumerate(priors):
        place_id = prior.place.id
        rows.tell(index, prior, looks[place_id], mends[place_id])
    stories = rows.stories
    place = np.array([story.place for story in stories], dtype=np.intp)
    part = np.array([story.part for story in stories], dtype=np.intp)
    plain = part < 0
    mass = np.where(plain[:, None], masses[0, place] + masses[1, place],
                        masses[np.maximum(part, 0), place])  # fmt: skip
    share = np.where(plain[:, None], has_defect[place], part[:, None] == 1)
    number = {crew: k for k, crew in enumerate(crews)}
    own = np.array([-1 if (c := _crew(p)) is None else number[c] for p in priors], dtype=np.intp)
    chance = np.array([story.chance for story in stories])
    spread = np.array([spot_share(p.place, model) for p in priors])
    return Grid(
        place=place,
        starts=np.searchsorted(place, np.arange(len(priors))),
        size=size[place],
        log_mass=np.log(np.maximum(mass * chance[:, None], 1e-300)),
        defect=share,
        broken=np.array([story.broken for story in stories], dtype=float),
        crew=own[place],
        weights=np.array([story.weights for story in stories]).reshape(len(place), len(tests)),
        now=np.array([story.now for story in stories]),
        spread_out=spread[place],
        seen=tuple(rows.seen),
        crews=crews,
        tests=tests,
    )


def _crew(prior: HuntPrior) -> str | None:
    """Return the crew that made a place; None for what no crew made."""
    if not follows_crew(prior.place):
        return None
    return prior.place.crew if prior.facts.crew is None else prior.facts.crew


def _by_place(
    diary: Sequence[Event],
) -> tuple[defaultdict[str, list[tuple[int, Look]]], defaultdict[str, list[int]]]:
    looks: defaultdict[str, list[tuple[int, Look]]] = defaultdict(list)
    mends: defaultdict[str, list[int]] = defaultdict(list)
    for when, event in enumerate(diary):
        if isinstance(event, Look):
            looks[event.place].append((when, event))
        elif isinstance(event, Mend):
            mends[event.place].append(when)
    return looks, mends


def _sizes(priors: Sequence[HuntPrior]) -> tuple[Floats, Floats, Floats]:
    """Return ln sizes (N, G), masses without and with a defect (2, N, G), and the share with."""
    base = np.log([p.base for p in priors])
    s_base = np.array([p.base_sigma for p in priors])
    extra = np.log([p.defect_flow for p in priors])
    s_extra = np.array([p.defect_sigma for p in priors])
    chance = np.array([p.defect for p in priors])
    low = base - _TAIL_LOW * s_base
    high = np.maximum(base + _TAIL_HIGH * s_base, extra + _TAIL_HIGH * s_extra)
    edges = low[:, None] + (high - low)[:, None] * np.linspace(0.0, 1.0, CELLS + 1)
    sound = ndtr((edges - base[:, None]) / s_base[:, None])
    broken = np.zeros_like(edges)
    for quantile in (np.arange(_BASES) + 0.5) / _BASES:
        part = np.exp(base + s_base * ndtri(quantile))
        rest = np.maximum(np.exp(edges) - part[:, None], 1e-300)
        broken += ndtr((np.log(rest) - extra[:, None]) / s_extra[:, None]) / _BASES
    masses = np.stack([
        (1.0 - chance)[:, None] * _cells(sound), chance[:, None] * _cells(broken)
    ])  # fmt: skip
    return (
        (edges[:, 1:] + edges[:, :-1]) / 2,
        masses,
        masses[1] / np.maximum(masses.sum(axis=0), 1e-300),
    )


def _cells(cumulative: Floats) -> Floats:
    mass = np.diff(cumulative, axis=1)
    return np.asarray(mass / mass.sum(axis=1, keepdims=True), dtype=float)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Story:
    """One row: its place, whether it tells of a defect (-1: of both), the chance of its mends,
    whether the defect is still there, the multiplier in each test, and today's.
    """

    place: int
    part: int
    chance: float
    broken: bool
    weights: tuple[float, ...]
    now: float


class _Rows:
    """The stories of every place, gathered one place after another."""

    def __init__(
        self, *, model: HuntModel, tests: tuple[FanTest, ...], diary: tuple[Event, ...]
    ) -> None:
        self.model = model
        self.tests = tests
        self.when = [i for i, event in enumerate(diary) if isinstance(event, FanTest)]
        self.stories: list[_Story] = []
        self.seen: list[Seen] = []

    def tell(
        self, index: int, prior: HuntPrior, looks: list[tuple[int, Look]], mends: list[int]
    ) -> None:
        """Add the rows of one place."""
        weights = tuple(self._in_test(prior, test) for test in self.tests)
        if not looks and not mends:
            story = _Story(place=index, part=-1, chance=1.0, broken=True, weights=weights, now=1.0)
            self.stories.append(story)
            return
        thin = float(np.log(spot_share(prior.place, self.model)))
        for part, share, shift in (
            (0, self.model.sound_share, thin),
            (1, self.model.mend_share, 0.0),
        ):
            for held_at, chance in self._outcomes(mends):
                for when, look in looks:
                    less = float(np.log(share)) if when > held_at else 0.0
                    self.seen.append(Seen(row=len(self.stories), look=look, shift=shift + less))
                after = [share if when > held_at else 1.0 for when in self.when]
                held = held_at < np.inf
                story = _Story(
                    place=index,
                    part=part,
                    chance=chance,
                    broken=not held,
                    weights=tuple(w * a for w, a in zip(weights, after, strict=True)),
                    now=share if held else 1.0,
                )
                self.stories.append(story)

    def _outcomes(self, mends: list[int]) -> list[tuple[float, float]]:
        """Return when the mend held (never: infinity) and the chance of it."""
        success = self.model.mend_success
        held = [(float(when), success * (1 - success) ** k) for k, when in enumerate(mends)]
        return [*held, (np.inf, (1 - success) ** len(mends))]

    def _in_test(self, prior: HuntPrior, test: FanTest) -> float:
        names = {prior.place.id, prior.place.kind}
        if names & test.masked:
            return 0.0
        return self.model.unsealed_factor if names & test.unsealed else 1.0


def evidence(grid: Grid, factors: Floats, model: HuntModel) -> Floats:
    """Return ln chance of all looks (R, G), with each row's ln crew factor in `factors` (R,)."""
    total = np.zeros_like(grid.size)
    alike: defaultdict[tuple[object, ...], list[Seen]] = defaultdict(list)
    for seen in grid.seen:
        look = seen.look
        alike[look.method, look.found, look.strength, look.pressure].append(seen)
    for group in alike.values():
        row = np.array([seen.row for seen in group], dtype=np.intp)
        shift = np.array([seen.shift for seen in group]) + factors[row]
        np.add.at(total, row, log_chance(group[0].look, grid.size[row] + shift[:, None], model))
    return total
