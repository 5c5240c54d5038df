"""The front wall and the two cheeks of a dormer, standing on the main roof's upper face."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.geometry.plane import Slope
from seamwright.geometry.plate import Pair, Plate, loop_of
from seamwright.geometry.types import Frame, Vec2
from seamwright.shell.envelope import Pitch, Wing
from seamwright.shell.plan import Dormer, End
from seamwright.shell.surface import Region, Surface
from seamwright.shell.wall import FaceLine, cut_top


@dataclass(frozen=True, kw_only=True, slots=True)
class DormerFrame:
    """Where a dormer stands: plan axes from its front left corner, x along the eave, y back. [m]

    `main` is the slope it stands on (underside), `upper` that slope's upper face.
    """

    corner: Vec2
    along: Vec2
    width: float
    wall: float
    main: Pitch
    upper: Slope

    def at(self, x: float, y: float) -> Vec2:
        """Return the plan point x along the eave and y back from the front wall's outer face."""
        c, a = self.corner, self.along
        return (c[0] + x * a[0] - y * a[1], c[1] + x * a[1] + y * a[0])

    @property
    def main_pitch(self) -> float:
        """Rise over run of the main slope. [-]"""
        return math.hypot(self.main.slope.a, self.main.slope.b)


def dormer_walls(
    dormer: Dormer, placed: DormerFrame, wing: Wing, storey: str | None, layout_from: End
) -> tuple[Surface, ...]:
    """Return front, right and left wall; the front runs through, the cheeks butt against it.

    v = 0 is where the front wall's inner face meets the main roof's upper face.
    """
    base = placed.upper.at(placed.at(0.0, placed.wall))

    def surface(name: str, frame: Frame, plate: Plate) -> Surface:
        return Surface(
            id=f"{dormer.id}.{name}",
            role="wall",
            storey=storey,
            frame=frame,
            type_id=dormer.wall_panel_type,
            regions=(Region(plate=plate),),
            layout_from=layout_from,
        )

    return (
        surface("front", *_front(placed, wing, base)),
        surface("right", *_cheek(placed, wing, base, right=True)),
        surface("left", *_cheek(placed, wing, base, right=False)),
    )


def _front(placed: DormerFrame, wing: Wing, base: float) -> tuple[Frame, Plate]:
    t, w, a = placed.wall, placed.width, placed.along
    inner = FaceLine(start=placed.at(0.0, t), along=a, low=0.0, high=w)
    outer = FaceLine(start=placed.corner, along=a, low=0.0, high=w)
    low = placed.upper.at(placed.corner) - base
    pairs: list[Pair] = [((0.0, 0.0), (0.0, low)), ((w, 0.0), (w, low))]
    pairs.extend(
        ((x.inner[0], x.inner[1] - base), (x.outer[0], x.outer[1] - base))
        for x in reversed(cut_top([wing], inner, outer))
    )
    x, y = inner.start
    frame = Frame(origin=(x, y, base), u=(a[0], a[1], 0.0), v=(0.0, 0.0, 1.0))
    return frame, Plate(boundary=loop_of(pairs))


def _cheek(placed: DormerFrame, wing: Wing, base: float, *, right: bool) -> tuple[Frame, Plate]:
    """Return a cheek: a wedge between the main roof's top and the dormer roof's underside.

    u runs back on the right cheek from the front wall's outer face, and forward on the left one
    from its rear tip.
    """
    t = placed.wall
    faces = (placed.width - t, placed.width) if right else (t, 0.0)
    corners: list[tuple[Vec2, Vec2, Vec2]] = []
    tips = [_tip(placed, wing, x) for x in faces]
    for x, tip in zip(faces, tips, strict=True):
        front = placed.at(x, t)
        end = placed.at(x, tip)
        low, high = placed.upper.at(front), _under(wing, front)
        corners.append(((t, low - base), (tip, placed.upper.at(end) - base), (t, high - base)))
    inner, outer = corners
    if right:
        pairs = list(zip(inner, outer, strict=True))
        origin, way = placed.at(faces[0], 0.0), (-placed.along[1], placed.along[0])
    else:
        far = max(tips)
        flip = [[(far - y, v) for y, v in (c[1], c[0], c[2])] for c in (inner, outer)]
        pairs = [(a, b) for a, b in zip(flip[0], flip[1], strict=True)]
        origin, way = placed.at(faces[0], far), (placed.along[1], -placed.along[0])
    frame = Frame(origin=(origin[0], origin[1], base), u=(way[0], way[1], 0.0), v=(0.0, 0.0, 1.0))
    return frame, Plate(boundary=loop_of(pairs))


def _tip(placed: DormerFrame, wing: Wing, x: float) -> float:
    """Return how far back the dormer's underside meets the main roof's top on a line back. [m]"""
    near, far = placed.at(x, 0.0), placed.at(x, 1.0)
    low = _slope_under(wing, near)
    gap = low.at(near) - placed.upper.at(near)
    closing = (placed.upper.at(far) - placed.upper.at(near)) - (low.at(far) - low.at(near))
    return gap / closing


def _slope_under(wing: Wing, p: Vec2) -> Slope:
    return min((x.slope for x in wing.pitches), key=lambda s: s.at(p))


def _under(wing: Wing, p: Vec2) -> float:
    return _slope_under(wing, p).at(p)
