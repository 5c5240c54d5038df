"""The hunt told step by step: where it stood after each test, look and mend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.leakage.hunt import DEFAULT, hunt
from seamwright.leakage.hunt_types import Event, FanTest, Hunt, HuntModel, HuntPrior, Look, Method
from seamwright.leakage.margins import Margin
from seamwright.leakage.rank import Aim, rank
from seamwright.leakage.rounds import standing_at, walk


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """Where the hunt stood after one entry of the diary; the first step has none, the forecast.

    `order` are the ids of all places that can be searched, the best first.
    """

    event: Event | None
    hunt: Hunt
    order: tuple[str, ...]

    @property
    def words(self) -> str:
        """Return the entry in a few words."""
        if self.event is None:
            return "forecast"
        if isinstance(self.event, FanTest):
            return f"test {self.event.id}"
        if isinstance(self.event, Look):
            return f"{self.event.place}: {_seen(self.event)}"
        return f"{self.event.place}: mended"


def tell(
    priors: Sequence[HuntPrior],
    diary: Sequence[Event],
    model: HuntModel = DEFAULT,
    *,
    method: Method = "smoke",
    aim: Aim = "leak",
    margins: Mapping[str, Margin] | None = None,
    neighbors: Mapping[str, Sequence[str]] | None = None,
) -> tuple[Step, ...]:
    """Return the forecast and where the hunt stood after each entry of the diary.

    `neighbors` are the places searched from the same spot; without them each stands alone.
    """
    near = {} if neighbors is None else neighbors
    steps = []
    for count in range(len(diary) + 1):
        found = hunt(priors, diary[:count], model, method=method, margins=margins)
        rounds = walk(rank(found, aim=aim), near, at=standing_at(diary[:count]))
        order = tuple(choice.standing.place.id for some in rounds for choice in some)
        event = diary[count - 1] if count else None
        steps.append(Step(event=event, hunt=found, order=order))
    return tuple(steps)


def _seen(look: Look) -> str:
    if not look.found:
        return "nothing"
    return "found" if look.strength is None else f"found, {look.strength}"
