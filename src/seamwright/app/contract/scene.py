"""The house in space, compact: numbers packed as little-endian arrays in base64."""

from __future__ import annotations

from pydantic import BaseModel


class Bodies(BaseModel):
    """Solids that make one mesh, and the names to pick them by.

    `positions_f32` holds x, y, z of every vertex [m], `triangles_u32` three vertices to a triangle
    (counter-clockwise from outside), `edges_u32` two to a line. Body i owns the vertices from
    `first_vertex[i]` up to that of the next; likewise triangles (in triangles) and edges (in
    lines). Words are given once and numbered: body i is of sort `sorts[sort[i]]`.
    """

    ids: list[str]
    sorts: list[str]
    sort: list[int]
    storeys: list[str]
    storey: list[int]
    planes: list[str]
    plane: list[int]
    first_vertex: list[int]
    first_triangle: list[int]
    first_edge: list[int]
    positions_f32: str
    triangles_u32: str
    edges_u32: str
    outward_f32: str


class Lines(BaseModel):
    """Joints as lines: both ends of each [m], its kind, stage, state and storey by number.

    `stage` and `storey` are -1 where there is none. `signed` is 1 where the side is signed, `look`
    0 without a finding, 1 with one to look at, 2 with one that stops work. Stages stand in the
    order of the work. A penetration has both ends in one place. Joint i joins the bodies whose
    places stand in `bodies_u32` from `first_body[i]` up to that of the next. `inner_f32` and
    `outer_f32` are the skin lines of its faces, `ends_f32` again where a face has none.
    """

    ids: list[str]
    kinds: list[str]
    kind: list[int]
    stages: list[str]
    stage: list[int]
    states: list[str]
    state: list[int]
    storeys: list[str]
    storey: list[int]
    faces: list[str]
    face: list[int]
    signed: list[int]
    look: list[int]
    length_f32: str
    ends_f32: str
    inner_f32: str
    outer_f32: str
    first_body: list[int]
    bodies_u32: str


class Points(BaseModel):
    """Nodes: where each stands [m], and the joints that meet there, by their place in `Lines`."""

    ids: list[str]
    kinds: list[str]
    kind: list[int]
    at_f32: str
    first_joint: list[int]
    joints_u32: str


class SceneOut(BaseModel):
    """The house to be drawn. x east, y north, z up [m]; `low_m` and `high_m` bound everything.

    `bodies` are panels, timbers and supports; `first_*` lists end with the total count. The
    vertices of a panel are its inner outline, its holes there, then the same on its outer face;
    `outward_f32` is the unit vector out of each body's outer face (for exploding the model).
    """

    house: str
    revision: int
    low_m: tuple[float, float, float]
    high_m: tuple[float, float, float]
    bodies: Bodies
    joints: Lines
    nodes: Points
