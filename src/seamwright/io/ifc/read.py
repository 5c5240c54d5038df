"""Read a plan from a building model in IFC2x3, IFC4 or IFC4x3."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from seamwright.errors import FormatError, Problem
from seamwright.io.ifc.bodies import Bodies
from seamwright.io.ifc.holes import Holes
from seamwright.io.ifc.layers import PanelTypes, exact, is_foam, material_words
from seamwright.io.ifc.notes import Notes, plain
from seamwright.io.ifc.open import library, open_model
from seamwright.io.ifc.place import Placed, place_panel
from seamwright.io.ifc.sides import decide_sides
from seamwright.io.ifc.site import read_site
from seamwright.io.ifc.sort import Sorted, Sorter
from seamwright.io.ifc.source import Source
from seamwright.io.ifc.timbers import fit_stick, member_kind, top_face
from seamwright.io.ifc.types import DEFAULTS, Entity, Floats, IfcReading, PanelDefaults, Piece
from seamwright.shell.plan import GivenSupport, Plan, Timber, TimberSize

FAR = 1000.0
"""A model farther than this from its origin is shifted to it. [m]"""


def read_ifc(
    path: str | Path, *, panel_type_defaults: PanelDefaults = DEFAULTS
) -> IfcReading:  # fmt: skip
    """Return the plan that a building model describes, and how it was come by.

    Walls, roofs and slabs larger than the largest panel become planes still to be laid out;
    plates and parts of assemblies become panels. Coordinates are metres held to 1/1000 mm.

    Raises
    ------
    FormatError
        If the file is not a whole model that can be read, or holds nothing that makes a shell.
    InputError
        If the file is missing or too large, or the optional package is not installed.
    """
    ifc, model = library(), open_model(path)
    try:
        return _read(ifc, model, path, panel_type_defaults)
    except (AttributeError, IndexError, KeyError, RuntimeError, TypeError, ValueError) as error:
        raise FormatError(
            [
                Problem(
                    subject=Path(path).name,
                    sentence="the model is not built as its schema says, and could not be followed "
                    f"({type(error).__name__}: {plain(str(error))})",
                    remedy="export it again, with walls, roofs, slabs, beams and openings only",
                    file=str(path),
                )
            ]
        ) from error


def _read(
    ifc: Entity, model: Entity, path: str | Path, defaults: PanelDefaults
) -> IfcReading:  # fmt: skip
    notes = Notes()
    scale = _unit(ifc, model)
    bodies = Bodies(ifc)
    if scale is None:
        scale = _guessed_unit(model, bodies, notes)
        bodies.rescale(scale)
    shift = _settle(model, bodies, notes)
    source = Source(
        ifc=ifc, model=model, bodies=bodies, scale=scale, defaults=defaults, notes=notes
    )
    found = Sorter(source).sort()
    supports, ids = _bearings(source, found)
    if not found.pieces:
        raise _nothing(path, notes)
    decide_sides(found.pieces, notes)
    types = PanelTypes(defaults, notes)
    placed = [place_panel(piece, types.of(piece)) for piece in found.pieces]
    _tell(placed, notes)
    timbers, more = _timbers(source, found)
    holes = _holes(source, found, placed)
    ids += [(p.panel.id, plain(p.piece.element.GlobalId)) for p in placed] + more + holes.ids
    plan = Plan(
        site=read_site(model, scale, notes),
        panel_types=types.all,
        openings=tuple(holes.openings),
        penetrations=tuple(holes.penetrations),
        timbers=tuple(timbers),
        panels=tuple(holes.panels[p.panel.id] for p in placed),
        supports=tuple(supports),
    )
    return IfcReading(
        plan=plan,
        used=notes.used,
        guessed=notes.guessed,
        left_out=notes.left_out,
        shift=(exact(shift[0]), exact(shift[1]), exact(shift[2])),
        schema=str(model.schema),
        global_ids=tuple(ids),
    )


def _unit(ifc: Entity, model: Entity) -> float | None:
    """Return the metres in one length unit, None when the model names no length unit."""
    for assignment in model.by_type("IfcUnitAssignment"):
        for unit in assignment.Units or ():
            if getattr(unit, "UnitType", None) == "LENGTHUNIT":
                return float(ifc.util.unit.calculate_unit_scale(model))
    return None


def _guessed_unit(model: Entity, bodies: Bodies, notes: Notes) -> float:
    """Return a length unit that gives a house the size of a house."""
    extents = [np.ptp(body.points, axis=0) for body in _all_bodies(model, bodies)]
    largest = max((float(e.max()) for e in extents), default=1.0)
    scale, name = (0.001, "millimetres") if largest > 300 else (1.0, "metres")
    notes.guess(
        f"The model names no length unit; {name} were taken, because its largest element "
        f"measures {largest:.6g}"
    )
    return scale


def _all_bodies(model: Entity, bodies: Bodies) -> list[Entity]:
    found = (bodies.of(element) for element in model.by_type("IfcElement"))
    return [body for body in found if body is not None]


def _settle(model: Entity, bodies: Bodies, notes: Notes) -> Floats:
    """Bring a model far from its origin near it, by whole metres; return what was taken off."""
    corners = [body.points.min(axis=0) for body in _all_bodies(model, bodies)]
    low = np.min(corners, axis=0) if corners else np.zeros(3)
    shift = np.where(np.abs(low) > FAR, np.floor(low), 0.0)
    if shift.any():
        bodies.shift(shift)
        notes.use(
            "The model stands far from its origin; "
            f"({shift[0]:.0f}, {shift[1]:.0f}, {shift[2]:.0f}) m were taken off its coordinates"
        )
    return np.asarray(shift, dtype=float)


def _bearings(source: Source, found: Sorted) -> tuple[list[GivenSupport], list[tuple[str, str]]]:
    """Return slabs, footings and decks as bearings; moves floor slabs that are no panels there."""
    notes = source.notes
    decks = [p for p in found.pieces if _is_deck(source.ifc, p)]
    lowest = min((p.plate.middle[2] for p in found.pieces), default=0.0)
    for piece in decks:
        found.pieces.remove(piece)
        notes.guess("A floor without a foam core was taken as a bearing, not as panels",
                    piece.element)  # fmt: skip
    supports: list[GivenSupport] = []
    ids: list[tuple[str, str]] = []
    for element in [*found.bases, *(p.element for p in decks)]:
        body = source.bodies.of(element)
        top = top_face(body) if body is not None else None
        if top is None:
            notes.leave("It has no level top to bear on", element)
            continue
        ring, level, depth = top
        slab = element.is_a("IfcSlab")
        deck = slab and level > lowest + 1.0
        support = GivenSupport(
            id=source.names.of(element, "Base"),
            kind="deck" if deck else "slab" if slab else "stem_wall",
            outline=tuple((exact(x), exact(y)) for x, y in ring),
            top=exact(level),
            thickness=exact(depth),
        )
        supports.append(support)
        ids.append((support.id, plain(element.GlobalId)))
        notes.use(f"Taken as what panels stand on ({support.kind.replace('_', ' ')})", element)
    return supports, ids


def _is_deck(ifc: Entity, piece: Piece) -> bool:
    if piece.role != "floor" or piece.own or not piece.host.is_a("IfcSlab"):
        return False
    words = piece.material or material_words(ifc, piece.host)
    return not is_foam(words)


def _tell(placed: list[Placed], notes: Notes) -> None:
    for item in placed:
        if item.panel.lay_out:
            notes.use("Taken as a plane still to be laid out into panels", item.piece.element)
        else:
            notes.use(f"Taken as a {item.panel.role} panel", item.piece.element)


def _timbers(source: Source, found: Sorted) -> tuple[list[Timber], list[tuple[str, str]]]:
    notes = source.notes
    timbers: list[Timber] = []
    ids: list[tuple[str, str]] = []
    for element in found.sticks:
        if getattr(element, "PredefinedType", None) == "STUD":
            notes.leave("Studs stand inside their wall", element)
            continue
        body = source.bodies.of(element)
        stick = fit_stick(body) if body is not None else None
        if stick is None:
            notes.leave("It is no straight timber with a body", element)
            continue
        kind, told = member_kind(element)
        if not told:
            notes.guess("A beam with no telling name was taken as a plain beam", element)
        if stick.fullness < 0.95:
            notes.guess("Not a full rectangle; taken as the box around it", element)
        a, b = stick.start, stick.end
        timber = Timber(
            id=source.names.of(element, "Beam"),
            kind=kind,
            start=(exact(a[0]), exact(a[1]), exact(a[2])),
            end=(exact(b[0]), exact(b[1]), exact(b[2])),
            size=TimberSize(width=exact(stick.width), depth=exact(stick.depth)),
        )
        timbers.append(timber)
        ids.append((timber.id, plain(element.GlobalId)))
        notes.use(f"Taken as a timber ({kind.replace('_', ' ')})", element)
    return timbers, ids


def _holes(source: Source, found: Sorted, placed: list[Placed]) -> Holes:
    holes = Holes(source, placed)
    hosts: dict[int, tuple[Entity, list[Placed]]] = {}
    for item in placed:
        piece = item.piece
        hosts[int(piece.element.id())] = (piece.element, [item])
        if int(piece.host.id()) in found.containers and piece.host != piece.element:
            entry = hosts.setdefault(int(piece.host.id()), (piece.host, []))
            entry[1].append(item)
    for owner, panels in hosts.values():
        holes.take_voids(owner, panels)
    for item in placed:
        holes.take_drawn(item)
    for element in found.services:
        holes.take_service(element, placed)
    return holes


def _nothing(path: str | Path, notes: Notes) -> FormatError:
    reasons = "; ".join(notes.left_out[:3]).rstrip(".")
    return FormatError(
        [
            Problem(
                subject=Path(path).name,
                sentence="the model holds no wall, roof, slab or plate that could be a panel"
                + (f" ({reasons})" if reasons else ""),
                remedy="export walls, roofs and slabs with their bodies",
                file=str(path),
            )
        ]
    )
