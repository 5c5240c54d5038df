"""The leak hunt: what each place leaks now, after all that was recorded, seen and tested."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from seamwright.errors import SeamwrightError
from seamwright.leakage.evidence import Floats, chance_found
from seamwright.leakage.hunt_grid import CELLS, Grid, make_grid
from seamwright.leakage.hunt_types import (
    Event,
    Hunt,
    HuntModel,
    HuntPrior,
    Look,
    Mend,
    Method,
    Spread,
    Standing,
)
from seamwright.leakage.margins import Margin
from seamwright.leakage.posterior import Piece, weigh

DEFAULT = HuntModel()
_PAD = 64
"""Bins of the histogram to either side of a place's sizes, for crews' factors. Solver setting."""
_LOW, _HIGH = 0.05, 0.95
_Z90 = 1.6449
"""Ends of an interval that holds 90 %, as shares and in standard deviations of the normal law."""


def hunt(
    priors: Sequence[HuntPrior],
    diary: Sequence[Event] = (),
    model: HuntModel = DEFAULT,
    *,
    method: Method = "smoke",
    margins: Mapping[str, Margin] | None = None,
) -> Hunt:
    """Return where the hunt stands after a diary, without memory of earlier calls.

    Parameters
    ----------
    priors : sequence of HuntPrior
        Every place once; the answer keeps their order.
    diary : sequence of Event
        Looks, mends and fan tests in the order in which they happened.
    method : Method
        The way of searching that the chances to find are worked out for.
    margins : mapping, optional
        What places tolerate, by id: with it the leak beyond that is worked out too.

    Raises
    ------
    SeamwrightError
        With no places, or with an event at a place that is not among them.

    Notes
    -----
    Looks at one place are taken as independent given its leak. Cost grows with the number of
    places. How it is worked out and what it leaves out: ``docs/hunt.md``.
    """
    _refuse_strangers(priors, diary)
    grid = make_grid(priors, diary, model)
    made = weigh(grid, model)
    sums = _Sums(grid, model, method, _allowed(priors, {} if margins is None else margins, model))
    for piece in made:
        sums.add(piece)
    return Hunt(
        standings=sums.standings(priors, diary),
        total=_whole(made),
        crews={crew: _factor(made, k) for k, crew in enumerate(grid.crews)},
        method=method,
    )


def _refuse_strangers(priors: Sequence[HuntPrior], diary: Sequence[Event]) -> None:
    known = {prior.place.id for prior in priors}
    if not known:
        raise SeamwrightError("there is no place to hunt in; the house has no joints")
    for event in diary:
        if isinstance(event, Look | Mend) and event.place not in known:
            raise SeamwrightError(f"there is no place {event.place}; look it up in the register")


def _allowed(
    priors: Sequence[HuntPrior], margins: Mapping[str, Margin], model: HuntModel
) -> Floats:
    """Return what each place may leak, spread out and at one spot (N, 2), nan where unknown. [m³/s]

    A defect leaks at one spot and wets the wood there, so that only the spot's length counts.
    """
    allowed = np.full((len(priors), 2), np.nan)
    for i, prior in enumerate(priors):
        margin = margins.get(prior.place.id)
        if margin is not None:
            spot = model.spot if prior.place.length <= 0.0 else min(model.spot, prior.place.length)
            allowed[i] = margin.tolerates * max(prior.place.length, spot), margin.tolerates * spot
    return allowed


def _whole(made: Sequence[Piece]) -> Spread:
    """Return the house's leak now with its 90 % interval, taken as normal in its logarithm."""
    weight = np.array([piece.weight for piece in made])
    mean = np.array([piece.mean_now for piece in made])
    center = float(weight @ mean)
    inner = float(weight @ np.array([piece.variance_now for piece in made]))
    spread = inner + max(float(weight @ (mean - center) ** 2), 0.0)
    sigma = float(np.sqrt(np.log1p(spread / center**2)))
    typical = center * float(np.exp(-(sigma**2) / 2.0))
    low, high = (typical * float(np.exp(s * _Z90 * sigma)) for s in (-1.0, 1.0))
    return Spread(value=center, low=low, high=high)


def _factor(made: Sequence[Piece], crew: int) -> Spread:
    """Return a crew's factor with its 90 % interval, taken as normal in its logarithm."""
    weight = np.array([piece.weight for piece in made])
    factor = np.array([piece.factors[crew] for piece in made])
    center = float(weight @ factor)
    width = float(np.sqrt(max(float(weight @ (factor - center) ** 2), 0.0)))
    low, high = (float(np.exp(center + s * _Z90 * width)) for s in (-1.0, 1.0))
    return Spread(value=float(np.exp(center)), low=low, high=high)


class _Sums:
    """Sums over all points of integration, place by place, and the histogram of each leak."""

    def __init__(self, grid: Grid, model: HuntModel, method: Method, allowed: Floats) -> None:
        places = len(grid.starts)
        self.allowed = allowed
        self.told = np.flatnonzero(~np.isnan(allowed[grid.place, 0]))
        self.grid = grid
        self.detection = model.detections[method]
        self.bins = CELLS + 2 * _PAD
        self.first = grid.size[grid.starts, 0]
        self.step = grid.size[grid.starts, 1] - self.first
        self.histogram = np.zeros(places * self.bins)
        self.leak = np.zeros(places)
        self.defect = np.zeros(places)
        self.found = np.zeros(places)
        self.gain = np.zeros(places)
        self.beyond = np.zeros(places)
        self.relief = np.zeros(places)
        self.shares = model.mend_success, model.mend_share, model.sound_share
        held = model.mend_success
        self.gains = held * (1.0 - model.mend_share), held * (1.0 - model.sound_share)

    def add(self, piece: Piece) -> None:
        """Add the rows of one point of integration."""
        grid, place, chance = self.grid, self.grid.place, piece.weight * piece.chance
        size = piece.size + np.log(grid.now)[:, None]
        flow = np.exp(size)
        defect = grid.defect
        at_spot = chance * defect * chance_found(size, self.detection)
        thin = size + np.log(grid.spread_out)[:, None]
        spread = chance * (1.0 - defect) * chance_found(thin, self.detection)
        gain = (at_spot * self.gains[0] + spread * self.gains[1]) * flow * grid.broken[:, None]
        for name, part in (
            ("leak", chance * flow),
            ("defect", chance * defect * grid.broken[:, None]),
            ("found", at_spot + spread),
            ("gain", gain),
        ):
            by_place = np.bincount(place, part.sum(axis=1), minlength=len(self.leak))
            setattr(self, name, getattr(self, name) + by_place)
        self._deposit(size, chance)
        if len(self.told):
            rows = self.told
            self._too_much(flow[rows], chance[rows], at_spot[rows], spread[rows])

    def _too_much(self, flow: Floats, chance: Floats, at_spot: Floats, spread: Floats) -> None:
        """Add the leak beyond what the told places tolerate, and what a look and a mend take off.

        `at_spot` and `spread` are the chances that a search finds a defect or a spread-out leak.
        """
        rows, held = self.told, self.shares[0]
        place, broken = self.grid.place[rows], self.grid.broken[rows][:, None]
        defect = self.grid.defect[rows]
        beyond, relief = np.zeros_like(flow), np.zeros_like(flow)
        for found, part, share, allowed in (
            (at_spot, defect, self.shares[1], self.allowed[place, 1:]),
            (spread, 1.0 - defect, self.shares[2], self.allowed[place, :1]),
        ):
            over = np.maximum(flow - allowed, 0.0)
            left = np.maximum(share * flow - allowed, 0.0)
            beyond += chance * part * over
            relief += held * found * (over - left) * broken
        self.beyond += np.bincount(place, beyond.sum(axis=1), minlength=len(self.beyond))
        self.relief += np.bincount(place, relief.sum(axis=1), minlength=len(self.relief))

    def _deposit(self, size: Floats, chance: Floats) -> None:
        """Add chances to the histogram of ln leak; a cell between two bins goes to both."""
        place = self.grid.place
        shift = (size[:, 0] - self.first[place]) / self.step[place]
        shift = np.clip(shift, -_PAD, _PAD - 1.001)
        whole = np.floor(shift).astype(np.intp)
        part = (shift - whole)[:, None]
        at = (place * self.bins + _PAD + whole)[:, None] + np.arange(CELLS)
        for move, share in ((0, 1.0 - part), (1, part)):
            self.histogram += np.bincount(
                (at + move).ravel(), (chance * share).ravel(), minlength=len(self.histogram)
            )

    def standings(
        self, priors: Sequence[HuntPrior], diary: Sequence[Event]
    ) -> tuple[Standing, ...]:
        """Return every place as it stands."""
        low, high = self._quantile(_LOW), self._quantile(_HIGH)
        whole = float(self.leak.sum())
        told = ~np.isnan(self.allowed[:, 0])
        looks = Counter(event.place for event in diary if isinstance(event, Look))
        mends = Counter(event.place for event in diary if isinstance(event, Mend))
        return tuple(
            Standing(
                place=prior.place,
                facts=prior.facts,
                leak=float(self.leak[i]),
                low=float(low[i]),
                high=float(high[i]),
                defect=float(self.defect[i]),
                share=float(self.leak[i] / whole),
                found=float(self.found[i]),
                gain=float(self.gain[i]),
                looks=looks[prior.place.id],
                mended=mends[prior.place.id],
                beyond=float(self.beyond[i]) if told[i] else None,
                relief=float(self.relief[i]) if told[i] else None,
            )
            for i, prior in enumerate(priors)
        )

    def _quantile(self, share: float) -> Floats:
        """Return the leak below which lies `share` of the chance, straight within a bin."""
        mass = self.histogram.reshape(-1, self.bins)
        below = np.cumsum(mass, axis=1)
        wanted = share * below[:, -1:]
        index = np.argmax(below >= wanted, axis=1)
        rows = np.arange(len(mass))
        inside = mass[rows, index]
        start = below[rows, index] - inside
        part = (wanted[:, 0] - start) / np.maximum(inside, 1e-300)
        place = self.first + self.step * (index - _PAD - 0.5 + part)
        return np.asarray(np.exp(place), dtype=float)
