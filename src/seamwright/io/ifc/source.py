"""An opened model with what every reading step needs at hand."""

from __future__ import annotations

from dataclasses import dataclass, field

from seamwright.io.ifc.bodies import Bodies
from seamwright.io.ifc.layers import identifier
from seamwright.io.ifc.notes import Notes, plain
from seamwright.io.ifc.types import Entity, PanelDefaults


class Names:
    """Gives every element an id of its own, from its name where it has one."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def of(self, element: Entity, spare: str, stated: object = None) -> str:
        """Return an unused id for an element; `spare` begins the id of a nameless one."""
        name = str(stated) if stated is not None else plain(getattr(element, "Name", None))
        base = identifier(name) or spare
        count, found = 1, base
        while found in self._taken:
            count += 1
            found = f"{base}_{count}"
        self._taken.add(found)
        return found


@dataclass(frozen=True, kw_only=True, slots=True)
class Source:
    """The library, the model, its bodies, the length of its unit [m], and where notes go."""

    ifc: Entity
    model: Entity
    bodies: Bodies
    scale: float
    defaults: PanelDefaults
    notes: Notes
    names: Names = field(default_factory=Names)
