"""Places of made-up houses."""

from __future__ import annotations

import random

from seamwright.leakage.places import Place

KINDS = ("sill", "wall_spline", "roof_spline", "eave", "ridge", "opening")


def joint(name: str, kind: str = "sill", length: float = 3.0, **facts: object) -> Place:
    """Return a joint with a strip inside and beads, unless `facts` say otherwise."""
    facts = {"layers": ("strip_inner", "beads"), "height": 0.0, **facts}
    return Place(id=name, sort="joint", kind=kind, length=length, **facts)  # type: ignore[arg-type]


def node(name: str, kind: str = "sill+wall_spline", **facts: object) -> Place:
    """Return a patched node."""
    facts = {"layers": ("patch",), "height": 0.0, **facts}
    return Place(id=name, sort="node", kind=kind, length=0.0, **facts)  # type: ignore[arg-type]


def service(name: str, kind: str = "pipe", **facts: object) -> Place:
    """Return a service with a collar."""
    facts = {"layers": ("collar",), "height": 1.0, **facts}
    return Place(id=name, sort="penetration", kind=kind, length=0.3, **facts)  # type: ignore[arg-type]


def window(name: str, length: float = 5.0) -> Place:
    """Return the unit of a window."""
    return Place(
        id=name, sort="penetration", kind="window_unit", length=length, layers=(), height=1.5
    )


def house(n: int, seed: int = 7) -> tuple[Place, ...]:
    """Return about `n` places: joints by two crews, nodes, a few services and windows."""
    rng = random.Random(seed)
    joints = [
        joint(f"J{k}", rng.choice(KINDS), rng.uniform(0.3, 6.0), crew=rng.choice("ab"))
        for k in range(n * 6 // 10)
    ]
    nodes = [node(f"N{k}", crew=rng.choice("ab")) for k in range(n * 3 // 10)]
    rest = n - len(joints) - len(nodes)
    return (*joints, *nodes, *(window(f"W{k}/unit") for k in range(rest - 1)), service("P1"))
