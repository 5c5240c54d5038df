"""The joint register, the nodes, the edge ledger and the breaks as tables."""

from __future__ import annotations

import math
from collections import Counter, defaultdict

from seamwright.joints.types import Break, FaceLine, Joint, JointKind, Register
from seamwright.report.types import Cell, Quantity, Table
from seamwright.report.words import FACES, KINDS, REACH, kind_word, listed, node_word


def kinds_present(register: Register) -> tuple[JointKind, ...]:
    """Return the joint kinds of a register from the ground up."""
    present = {joint.kind for joint in register.joints}
    return tuple(kind for kind in KINDS if kind in present)


def joint_totals(register: Register) -> Table:
    """Return count and total length of each kind of joint, and of all."""
    rows = tuple(_sum_row(kind_word(k), _of(register, k)) for k in kinds_present(register))
    return Table(
        columns=("Kind", "Joints", "Length", "Inside line", "Outside line"),
        rows=rows,
        widths=(3, 1, 2, 2, 2),
        right=(1, 2, 3, 4),
        caption="Joints by kind",
        total=_sum_row("All joints", register.joints),
    )


def joint_table(register: Register, kind: JointKind) -> Table:
    """Return every joint of one kind with its true lengths, angle, steps and reach."""
    joints = _of(register, kind)
    _, _, length, inner, outer = _sum_row("", joints)
    return Table(
        columns=(
            "Joint",
            "Storey",
            "With",
            "Length",
            "Inside line",
            "Outside line",
            "Angle",
            "Step in",
            "Step out",
            "Inside reached",
            "Outside reached",
        ),
        rows=tuple(_joint_row(joint) for joint in joints),
        widths=(3.2, 1.0, 2.6, 1.8, 1.8, 1.8, 1.3, 1.1, 1.1, 3.4, 3.4),
        right=(3, 4, 5, 6, 7, 8),
        caption=f"Joint register: {kind_word(kind)}",
        total=(f"{len(joints)} in all", None, None, length, inner, outer, *(None,) * 5),
    )


def node_totals(register: Register) -> Table:
    """Return how many nodes there are of each kind."""
    counts = Counter(node.kind for node in register.nodes)
    return Table(
        columns=("Node", "How many"),
        rows=tuple((node_word(kind), _count(counts[kind])) for kind in sorted(counts)),
        widths=(5, 1),
        right=(1,),
        caption="Nodes by kind",
        total=("All nodes", _count(len(register.nodes))),
    )


def node_table(register: Register) -> Table:
    """Return every node, the joints that meet there and where it lies in plan and height."""
    rows: list[tuple[Cell, ...]] = []
    for node in register.nodes:
        x, y, z = (Quantity(value=part, dimension="length") for part in node.at)
        rows.append((node.id, node_word(node.kind), listed(node.joints), x, y, z))
    return Table(
        columns=("Node", "Kind", "Joints that meet", "x", "y", "Height"),
        rows=tuple(rows),
        widths=(1.8, 4.4, 7, 1.6, 1.6, 1.6),
        right=(3, 4, 5),
        caption="Nodes: where joints meet, with place in plan axes and height",
    )


def ledger_table(register: Register) -> Table:
    """Return what became of every panel edge: matched to a joint, free, or explained."""
    fates = {
        "joint": "Matched to a joint",
        "explained": "Needs no seal, for a reason",
        "free": "Meets nothing",
    }
    rows: list[tuple[Cell, ...]] = []
    for fate, words in fates.items():
        uses = [use for use in register.ledger if use.fate == fate]
        run = math.fsum(use.end - use.start for use in uses)
        rows.append((words, _count(len(uses)), Quantity(value=run, dimension="length")))
    all_run = math.fsum(use.end - use.start for use in register.ledger)
    return Table(
        columns=("Inner panel edges", "Stretches", "Length"),
        rows=tuple(rows),
        widths=(4, 1, 2),
        right=(1, 2),
        caption="Every inner panel edge accounted for",
        total=(
            "All edges",
            _count(len(register.ledger)),
            Quantity(value=all_run, dimension="length"),
        ),
    )


def break_table(breaks: tuple[Break, ...]) -> Table:
    """Return every stretch where a line does not close, and what would close it.

    A stretch open on both faces for the same reason is one row, and so are like stretches.
    """
    faces: defaultdict[tuple[str, str, str, float], list[str]] = defaultdict(list)
    for b in breaks:
        faces[b.panel_id, b.reason, b.remedy, b.line.length].append(FACES[b.face])
    return Table(
        columns=("Face", "Panel", "Length", "Why it is open", "What closes it"),
        rows=tuple(
            (_open_faces(open_), panel, Quantity(value=run, dimension="length"), reason, remedy)
            for (panel, reason, remedy, run), open_ in faces.items()
        ),
        widths=(2, 1.6, 1.4, 5, 5),
        right=(2,),
        caption="Where the line does not close",
    )


def _open_faces(faces: list[str]) -> str:
    """Return the faces once each, and in how many places when there are several."""
    once = dict.fromkeys(faces)
    places = max(faces.count(face) for face in once)
    return " and ".join(once) + (f", {places} places" if places > 1 else "")


def _of(register: Register, kind: JointKind) -> tuple[Joint, ...]:
    return tuple(joint for joint in register.joints if joint.kind == kind)


def _joint_row(joint: Joint) -> tuple[Cell, ...]:
    return (
        joint.id,
        joint.storey,
        listed(joint.others),
        Quantity(value=joint.length, dimension="length"),
        _run(joint.inner),
        _run(joint.outer),
        Quantity(value=joint.dihedral, dimension="angle"),
        _step(joint.inner),
        _step(joint.outer),
        _reached(joint.inner),
        _reached(joint.outer),
    )


def _run(face: FaceLine) -> Quantity | None:
    return None if face.line is None else Quantity(value=face.length, dimension="length")


def _step(face: FaceLine) -> Quantity | None:
    return None if face.line is None else Quantity(value=face.offset, dimension="width")


def _reached(face: FaceLine) -> str:
    if face.line is None:
        return "–"
    if not face.hidden_by:
        return REACH[face.reach]
    if face.reach == "until_hidden":
        return f"{REACH[face.reach]} {face.hidden_by}"
    return f"{REACH[face.reach]} ({face.hidden_by})"


def _sum_row(name: str, joints: tuple[Joint, ...]) -> tuple[Cell, ...]:
    def run(values: list[float]) -> Quantity:
        return Quantity(value=math.fsum(values), dimension="length")

    return (
        name,
        _count(len(joints)),
        run([j.length for j in joints]),
        run([j.inner.length for j in joints]),
        run([j.outer.length for j in joints]),
    )


def _count(number: int) -> Quantity:
    return Quantity(value=float(number), dimension="count")
