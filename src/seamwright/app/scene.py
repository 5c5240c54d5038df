"""The scene of a house: its bodies, its joints as lines, its nodes as points."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from seamwright.app.built import Built
from seamwright.app.contract.scene import Bodies, Lines, Points, SceneOut
from seamwright.app.mesh import Numbered, bodies_of, bounds, packed
from seamwright.draw.solids import corners
from seamwright.geometry.types import Segment
from seamwright.joints.types import FaceLine, Joint
from seamwright.report.words import STAGES

STATES = ("open", "sealed", "checked")
"""How far a joint is, as recorded on site: nothing yet, sealed, looked at by another."""
FACES = ("inner", "outer", "both")
_LOOKS = {"": 0, "attention": 1, "stop": 2}


def scene_of(built: Built, states: Mapping[str, str], *, house: str, revision: int) -> SceneOut:
    """Return the scene of a house; `states` gives each joint's state, open where it is silent."""
    shell = built.house.shell
    points = np.array([p for panel in shell.panels for p in corners(panel)], dtype=float)
    low, high = bounds(points.reshape(-1, 3))
    return SceneOut(
        house=house,
        revision=revision,
        low_m=low,
        high_m=high,
        bodies=bodies(built),
        joints=lines(built, states),
        nodes=points_of(built),
    )


def bodies(built: Built) -> Bodies:
    """Return the solids of a house."""
    return bodies_of(built.house.shell)


def lines(built: Built, states: Mapping[str, str]) -> Lines:
    """Return the joints of a house as lines."""
    kinds, storeys = Numbered(), Numbered()
    stages, made = Numbered(STAGES), Numbered(STATES)
    joints = built.house.register.joints
    sides = [built.seals[joint.id].side for joint in joints]
    first, joined = _joined(built)
    return Lines(
        ids=[joint.id for joint in joints],
        kind=[kinds.number(joint.kind) for joint in joints],
        kinds=kinds.words,
        stage=[stages.number(built.stages[joint.id]) for joint in joints],
        stages=stages.words,
        state=[made.number(states.get(joint.id, "open")) for joint in joints],
        states=made.words,
        storey=[storeys.number(joint.storey) for joint in joints],
        storeys=storeys.words,
        faces=list(FACES),
        face=[-1 if side is None else FACES.index(side.face) for side in sides],
        signed=[int(side is not None and side.signed) for side in sides],
        look=[_LOOKS[built.look(joint.id)] for joint in joints],
        length_f32=packed([joint.length for joint in joints], "<f4"),
        ends_f32=packed([_ends(joint.line) for joint in joints], "<f4"),
        inner_f32=packed([_face_ends(joint, joint.inner) for joint in joints], "<f4"),
        outer_f32=packed([_face_ends(joint, joint.outer) for joint in joints], "<f4"),
        first_body=first,
        bodies_u32=packed(joined, "<u4"),
    )


def points_of(built: Built) -> Points:
    """Return the nodes of a house as points."""
    kinds = Numbered()
    register = built.house.register
    place = {joint.id: number for number, joint in enumerate(register.joints)}
    meeting = [[place[name] for name in node.joints if name in place] for node in register.nodes]
    first = np.concatenate([[0], np.cumsum([len(one) for one in meeting])]).astype(int)
    return Points(
        ids=[node.id for node in register.nodes],
        kind=[kinds.number(node.kind) for node in register.nodes],
        kinds=kinds.words,
        at_f32=packed([node.at for node in register.nodes], "<f4"),
        first_joint=[int(count) for count in first],
        joints_u32=packed([number for one in meeting for number in one], "<u4"),
    )


def _joined(built: Built) -> tuple[list[int], list[int]]:
    """Return where the bodies of each joint begin in a list, and the list of their places."""
    shell = built.house.shell
    groups = (shell.panels, shell.members, shell.supports)
    ids = [body.id for group in groups for body in group]
    place = {name: number for number, name in enumerate(ids)}
    first, joined = [0], list[int]()
    for joint in built.house.register.joints:
        joined += [place[name] for name in (*joint.panels, *joint.others) if name in place]
        first.append(len(joined))
    return first, joined


def _ends(line: Segment) -> tuple[float, ...]:
    return (*line.start, *line.end)


def _face_ends(joint: Joint, face: FaceLine) -> tuple[float, ...]:
    return _ends(joint.line if face.line is None else face.line)
