"""Plans read from building models."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.ifc_houses import HEIGHT, LENGTH, PITCH, WIDTH, gable_house
from tests.ifc_models import THICK, Author

from seamwright.io.ifc import IfcReading, read_ifc
from seamwright.shell.plan import GivenPanel

Ring = tuple[tuple[Fraction, Fraction], ...]


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> IfcReading:
    """Return the gable house in millimetres, square to the axes, as the others are compared to."""
    return read_ifc(gable_house().save(tmp_path_factory.mktemp("ifc") / "house.ifc"))


def read(author: Author, folder: Path) -> IfcReading:
    """Return what is read from a model just written."""
    return read_ifc(author.save(folder / "model.ifc"))


def box(width: float, height: float) -> list[tuple[float, float]]:
    """Return a rectangle from the origin."""
    return [(0, 0), (width, 0), (width, height), (0, height)]


def normal(panel: GivenPanel) -> Any:
    """Return the direction from the inner to the outer face."""
    return np.cross(panel.along, panel.up)


def by_id(reading: IfcReading) -> dict[str, GivenPanel]:
    """Return the panels of a reading by id."""
    return {panel.id: panel for panel in reading.plan.panels}


def test_the_house_comes_in_as_planes_in_exact_metres(plain: IfcReading) -> None:
    """Walls and slopes larger than a panel are planes to lay out, true to 1/1000 mm."""
    panels = by_id(plain)
    assert set(panels) == {"South", "North", "East", "West", "Roof_south", "Roof_north"}
    assert all(panel.lay_out for panel in panels.values())
    assert panels["South"].outline == (
        (Fraction(0), Fraction(0)),
        (Fraction(8), Fraction(0)),
        (Fraction(8), Fraction(5, 2)),
        (Fraction(0), Fraction(5, 2)),
    )
    assert panels["South"].origin == (Fraction(0), Fraction(165, 1000), Fraction(0))
    assert [p.role for p in plain.plan.panels] == ["wall"] * 4 + ["roof"] * 2


def test_every_outside_is_outside(plain: IfcReading) -> None:
    """Each plane's normal points away from the rooms, and the reading says how that was told."""
    middle = np.array([LENGTH / 2, WIDTH / 2, HEIGHT / 2])
    for panel in plain.plan.panels:
        at = np.array([float(x) for x in panel.origin])
        assert (at - middle) @ normal(panel) > 0, panel.id
    assert any("worked out from the walls standing around" in s for s in plain.guessed)


def test_a_plumb_cut_shows_as_a_second_outline(plain: IfcReading) -> None:
    """The upper face of a plumb-cut slope is farther up the slope by thickness times pitch."""
    panel = by_id(plain)["Roof_south"]
    assert panel.outer_outline is not None
    drops = [float(o[1] - i[1]) for i, o in zip(panel.outline, panel.outer_outline, strict=True)]
    assert drops == pytest.approx([THICK * PITCH] * 4, abs=2e-6)
    assert by_id(plain)["South"].outer_outline is None


def test_openings_and_services_stand_in_their_walls(plain: IfcReading) -> None:
    """A filled void is a window or door; a small round one is a service with its diameter."""
    window, door = plain.plan.openings
    assert (window.id, window.kind, window.host) == ("W1", "window", "South")
    assert (window.along, window.up) == (Fraction(1), Fraction(9, 10))
    assert (window.width, window.height) == (Fraction(6, 5), Fraction(11, 10))
    assert (door.kind, door.along, door.up) == ("door", Fraction(5), Fraction(0))
    (vent,) = plain.plan.penetrations
    assert (vent.kind, vent.host, vent.along, vent.up) == (
        "duct", "North", Fraction(5), Fraction(22, 10),
    )  # fmt: skip
    assert vent.diameter == Fraction(16, 100)


def test_beam_slab_and_site_come_along(plain: IfcReading) -> None:
    """The ridge beam lies along the middle of its top face; the slab bears; the site is named."""
    (beam,) = plain.plan.timbers
    assert beam.kind == "ridge_beam"
    assert beam.start == (Fraction(0), Fraction(3), Fraction(4))
    assert beam.end == (Fraction(8), Fraction(3), Fraction(4))
    assert (beam.size.width, beam.size.depth) == (Fraction(9, 100), Fraction(3, 10))
    (slab,) = plain.plan.supports
    assert (slab.kind, slab.top, slab.thickness) == ("slab", Fraction(0), Fraction(1, 5))
    assert plain.plan.site.name == "Test house"
    assert plain.plan.site.latitude_deg == pytest.approx(57.05)
    assert plain.plan.site.elevation == 12


def test_layers_make_the_panel_type(plain: IfcReading) -> None:
    """Skins and core come from the material layers."""
    (kind,) = plain.plan.panel_types
    assert (kind.skin_inner, kind.core, kind.skin_outer) == (
        Fraction(11, 1000), Fraction(143, 1000), Fraction(11, 1000),
    )  # fmt: skip
    assert kind.core_material == "EPS foam"


@pytest.mark.parametrize(
    "guise",
    [
        {"unit": "ft"},
        {"unit": "in"},
        {"unit": "m"},
        {"unit": None},
        {"schema": "IFC2X3"},
        {"schema": "IFC4X3"},
        {"body": "brep"},
        {"body": "faces"},
        {"body": "mapped"},
        {"angle_deg": 37.0, "origin": (512_345.678, 4_123_456.789, 33.5)},
    ],
    ids=str,
)
def test_the_house_is_the_same_in_every_guise(
    plain: IfcReading, tmp_path: Path, guise: dict[str, Any]
) -> None:
    """Unit, schema, kind of body and place in the world change nothing within 2/1000 mm."""
    reading = read(gable_house(**guise), tmp_path)
    for expected, panel in zip(plain.plan.panels, reading.plan.panels, strict=True):
        assert panel.id == expected.id
        assert _apart(panel.outline, expected.outline) <= 2e-6
        assert (panel.outer_outline is None) == (expected.outer_outline is None)
    for want, got in zip(plain.plan.openings, reading.plan.openings, strict=True):
        assert (got.id, got.host, got.kind) == (want.id, want.host, want.kind)
        assert abs(float(got.along - want.along)) <= 2e-6
    assert float(reading.plan.penetrations[0].diameter) == pytest.approx(0.16, abs=2e-6)


def test_a_far_model_is_shifted_and_says_so(tmp_path: Path) -> None:
    """Site coordinates are taken off by whole metres, and put back they give the model."""
    reading = read(gable_house(origin=(512_345.678, -4_123_456.789, 33.5)), tmp_path)
    assert reading.shift == (512_345, -4_123_457, 0)
    south = by_id(reading)["South"]
    assert float(south.origin[0] + reading.shift[0]) == pytest.approx(512_345.678, abs=1e-6)
    assert any("far from its origin" in sentence for sentence in reading.used)


def test_a_turned_house_keeps_its_distances(plain: IfcReading, tmp_path: Path) -> None:
    """Between the origins of all panels, distances do not change when the house is turned."""
    turned = read(gable_house(angle_deg=37.0, origin=(5e5, 4e6, 0.0)), tmp_path)
    a, b = (
        np.array([[float(x) for x in p.origin] for p in r.plan.panels]) for r in (plain, turned)
    )
    gaps = [np.linalg.norm(s[:, None] - s[None], axis=2) for s in (a, b)]
    assert np.abs(gaps[0] - gaps[1]).max() < 4e-6


def test_a_missing_unit_is_guessed_from_the_size(tmp_path: Path) -> None:
    """A wall 8000 long without a unit is 8 m, and the reading says so."""
    reading = read(gable_house(unit=None), tmp_path)
    assert any("no length unit" in s and "millimetres" in s for s in reading.guessed)


def test_parts_of_an_assembly_are_panels(tmp_path: Path) -> None:
    """Plates that make up a wall are panels of its plane; a hole across two is the plane's."""
    a = Author()
    whole = a.root("IfcElementAssembly", "A")
    a.contain(whole)
    parts = [
        a.plate("IfcPlate", f"A.{i + 1}", (i * 1.2, 0.165, 0), (1, 0, 0), (0, 0, 1),
                box(1.197, 2.5), THICK, parent=whole)
        for i in range(3)
    ]  # fmt: skip
    a.aggregate(whole, parts)
    a.layers(parts)
    one = a.hole(parts[2], "H1", (2.7, 0.2, 1), (1, 0, 0), (0, 0, 1), box(0.6, 0.6), 0.3)
    a.hole(whole, "H2", (0.8, 0.2, 1), (1, 0, 0), (0, 0, 1), box(0.9, 0.9), 0.3, fill="IfcWindow")
    assert one.is_a("IfcOpeningElement")
    reading = read(a, tmp_path)
    panels = by_id(reading)
    assert set(panels) == {"A.1", "A.2", "A.3"}
    assert {p.plane for p in panels.values()} == {"A"}
    assert not any(p.lay_out for p in panels.values())
    hosts = {spec.id: spec.host for spec in reading.plan.openings}
    assert hosts == {"H1": "A.3", "H2": "A"}
    areas = [_area(panels[f"A.{i}"].outline) for i in (1, 2, 3)]
    whole = 1.197 * 2.5
    assert areas == pytest.approx([whole - 0.397 * 0.9, whole - 0.5 * 0.9, whole], abs=1e-5)


def test_the_slopes_of_a_roof_are_planes_of_their_own(tmp_path: Path) -> None:
    """An IfcRoof made of slabs gives one plane for each slope; a window in it finds its slope."""
    a = Author()
    whole = a.root("IfcRoof", "Roof")
    a.contain(whole)
    ring = box(2.0, 2.0)
    parts = [
        a.plate("IfcSlab", "S1", (0, 0, 2.5), (1, 0, 0), (0, 2, 1), ring, THICK, parent=whole),
        a.plate("IfcSlab", "S2", (2.01, 0, 2.5), (1, 0, 0), (0, 2, 1), ring, THICK, parent=whole),
        a.plate("IfcSlab", "N1", (4, 4, 2.5), (-1, 0, 0), (0, -2, 1), ring, THICK, parent=whole),
    ]
    a.aggregate(whole, parts)
    up = np.array([0, -2, 1]) / math.sqrt(5)
    out = np.array([0, 1, 2]) / math.sqrt(5)
    at = np.array([3.0, 4, 2.5]) + 0.5 * up - 0.05 * out
    a.hole(whole, "H", at, (-1, 0, 0), up, box(0.8, 0.8), 0.3, fill="IfcWindow")
    reading = read(a, tmp_path)
    panels = by_id(reading)
    assert [p.plane for p in panels.values()] == ["Roof_1", "Roof_1", "N1"]
    assert {p.role for p in panels.values()} == {"roof"}
    assert all(normal(p)[2] > 0 for p in panels.values())
    (window,) = reading.plan.openings
    assert (window.kind, window.host, float(window.up)) == ("skylight", "N1", 0.5)


def test_a_sheet_on_a_wall_of_panels_is_left_out(tmp_path: Path) -> None:
    """A board lining that lies over several panels is named, and the panels stay panels."""
    a = Author()
    whole = a.root("IfcElementAssembly", "A")
    a.contain(whole)
    parts = [
        a.plate("IfcPlate", f"A.{i}", (i * 1.2, 0.165, 0), (1, 0, 0), (0, 0, 1), box(1.2, 2.5),
                THICK, parent=whole)
        for i in range(2)
    ]  # fmt: skip
    parts.append(
        a.plate("IfcPlate", "Board", (0, 0.18, 0), (1, 0, 0), (0, 0, 1), box(2.4, 2.5), 0.0125,
                parent=whole)
    )  # fmt: skip
    a.aggregate(whole, parts)
    reading = read(a, tmp_path)
    assert set(by_id(reading)) == {"A.0", "A.1"}
    assert any("Board" in sentence for sentence in reading.left_out)


def test_an_assembly_of_layers_is_one_panel(tmp_path: Path) -> None:
    """Two thin skins and a core drawn as parts make one panel, with the skins measured."""
    a = Author()
    whole = a.root("IfcElementAssembly", "Sandwich")
    a.contain(whole)
    sizes, y, parts = (0.012, 0.14, 0.018), 0.165, []
    for name, size in zip(("inner", "core", "outer"), sizes, strict=True):
        parts.append(
            a.plate("IfcPlate", name, (0, y, 0), (1, 0, 0), (0, 0, 1), box(1.2, 2.5), size,
                    parent=whole)
        )  # fmt: skip
        y -= size
    a.aggregate(whole, parts)
    a.wall("Other", (2, 4), (0, 4), 2.5)
    reading = read(a, tmp_path)
    panel = by_id(reading)["Sandwich"]
    kind = next(k for k in reading.plan.panel_types if k.id == panel.panel_type)
    assert (kind.skin_inner, kind.core, kind.skin_outer) == (
        Fraction(12, 1000), Fraction(14, 100), Fraction(18, 1000),
    )  # fmt: skip


def test_layer_names_tell_the_outside(tmp_path: Path) -> None:
    """A layer called exterior settles which face is out, against what the position would say."""
    a = Author()
    wall = a.wall("Lone", (0, 0), (2, 0), 2.5)
    named = (("exterior board", 0.011), ("EPS", 0.143), ("interior board", 0.011))
    a.layers([wall], named)
    first = by_id(read(a, tmp_path))["Lone"]
    b = Author()
    wall = b.wall("Lone", (0, 0), (2, 0), 2.5)
    b.layers([wall], named[::-1])
    second = by_id(read(b, tmp_path))["Lone"]
    assert normal(first) @ normal(second) == pytest.approx(-1.0)


def test_an_l_shaped_house_has_its_re_entrant_walls_right(tmp_path: Path) -> None:
    """Walls in the notch of an L face the notch, though the middle of the house lies beyond."""
    corners = [(0, 0), (12, 0), (12, 4), (3, 4), (3, 12), (0, 12)]
    a = Author()
    for index, start in enumerate(corners):
        a.wall(f"W{index}", start, corners[(index + 1) % 6], 2.5)
    panels = by_id(read(a, tmp_path))
    for index, (x0, y0) in enumerate(corners):
        x1, y1 = corners[(index + 1) % 6]
        out = np.array([y1 - y0, x0 - x1, 0.0])
        assert normal(panels[f"W{index}"]) @ out > 0, index


def test_inside_walls_are_partitions(tmp_path: Path) -> None:
    """A wall the model calls not external is no part of the shell's plane."""
    a = gable_house()
    wall = a.wall("Inner", (4, 0.2), (4, 5.8), 2.4)
    flag = a.f.create_entity(
        "IfcPropertySingleValue", "IsExternal", None, a.f.create_entity("IfcBoolean", False)
    )
    pset = a.root("IfcPropertySet", "Pset_WallCommon", HasProperties=[flag])
    a.root("IfcRelDefinesByProperties", "", RelatedObjects=[wall], RelatingPropertyDefinition=pset)
    inner = by_id(read(a, tmp_path))["Inner"]
    assert (inner.role, inner.lay_out) == ("partition", False)


def test_a_pipe_without_a_hole_is_a_service(tmp_path: Path) -> None:
    """A pipe that runs through a wall is found by its own body; one that does not is left out."""
    a = gable_house()
    a.round("IfcPipeSegment", "Waste pipe", (2.0, -0.5, 0.4), (0, 1, 0), 0.055, 1.2)
    a.round("IfcPipeSegment", "Free pipe", (2.0, 1.5, 0.4), (0, 1, 0), 0.055, 1.2)
    reading = read(a, tmp_path)
    pipe = next(p for p in reading.plan.penetrations if p.id == "Waste_pipe")
    assert (pipe.kind, pipe.host) == ("pipe", "South")
    assert float(pipe.along) == pytest.approx(2.0, abs=1e-5)
    assert float(pipe.diameter) == pytest.approx(0.11, abs=1e-3)
    assert any("Free pipe" in sentence for sentence in reading.left_out)


def _area(ring: Ring) -> float:
    points = [(float(u), float(v)) for u, v in ring]
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def _apart(a: Ring, b: Ring) -> float:
    return max(
        max(abs(float(p[0] - q[0])), abs(float(p[1] - q[1]))) for p, q in zip(a, b, strict=True)
    )
