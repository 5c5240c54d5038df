"""Write a sealed house as a building model in IFC4 (ISO 16739)."""

from __future__ import annotations

from pathlib import Path

from seamwright.geometry.types import Vec3
from seamwright.io.ifc.author import Author
from seamwright.io.ifc.open import library
from seamwright.io.ifc.types import Entity
from seamwright.io.ifc.write_joints import JointWriter
from seamwright.io.ifc.write_shell import ShellWriter
from seamwright.joints.types import Register
from seamwright.seals.types import SealSchedule
from seamwright.shell.types import Shell


def write_ifc(
    path: str | Path,
    shell: Shell,
    register: Register,
    schedule: SealSchedule,
    *,
    project_name: str,
    timestamp: str,
    shift: Vec3 = (0.0, 0.0, 0.0),
) -> None:
    """Write the shell with its joints, seals and nodes.

    GlobalIds follow from `project_name` and the ids of things, so the same house written again
    matches. `timestamp` (ISO 8601) is the only thing in the file that tells when it was written.
    `shift` is where the plan's origin stands in the model (`IfcReading.shift`). [m]

    Raises
    ------
    InputError
        If the optional package is not installed.
    """
    ifc = library()
    model = ifc.file(schema="IFC4")
    author = Author(model, project_name)
    building, storeys = _spaces(author, shell, register, project_name, shift=shift)
    bodies = ShellWriter(author, shell)
    bodies.write()
    joints = JointWriter(author, shell, bodies.elements, placed=bodies.placed, schedule=schedule)
    joints.write(register)
    for storey, elements in bodies.placed.items():
        author.relate(
            "IfcRelContainedInSpatialStructure", "contents", storey or "",
            RelatedElements=elements, RelatingStructure=storeys.get(storey, building),
        )  # fmt: skip
    _header(model, Path(path), timestamp)
    model.write(str(path))


def _spaces(
    author: Author, shell: Shell, register: Register, project_name: str, *, shift: Vec3
) -> tuple[Entity, dict[str | None, Entity]]:
    """Return the building and its storeys by id, each at the height of its lowest panel."""
    project = author.root(
        "IfcProject", "project", project_name,
        RepresentationContexts=[author.whole], UnitsInContext=author.units(),
    )  # fmt: skip
    site = author.root(
        "IfcSite",
        "site",
        project_name,
        CompositionType="ELEMENT",
        ObjectPlacement=author.stand_at(shift),
    )
    origin = author.placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    building = author.root(
        "IfcBuilding", "building", project_name, CompositionType="ELEMENT", ObjectPlacement=origin
    )
    heights = _storey_heights(shell)
    for joint in register.joints:
        if joint.storey is not None:
            heights.setdefault(joint.storey, min(joint.line.start[2], joint.line.end[2]))
    storeys: dict[str | None, Entity] = {
        name: author.root(
            "IfcBuildingStorey", "storey", name, CompositionType="ELEMENT",
            ObjectPlacement=origin, Elevation=height,
        )
        for name, height in sorted(heights.items(), key=lambda item: item[1])
    }  # fmt: skip
    _aggregate(author, project, [site])
    _aggregate(author, site, [building])
    if storeys:
        _aggregate(author, building, list(storeys.values()))
    return building, storeys


def _storey_heights(shell: Shell) -> dict[str, float]:
    heights: dict[str, float] = {}
    for panel in shell.panels:
        if panel.storey is not None:
            low = min(panel.frame.point(corner)[2] for corner in panel.inner)
            heights[panel.storey] = min(low, heights.get(panel.storey, low))
    named = [item.storey for item in shell.supports] + [item.storey for item in shell.openings]
    for name in named + [item.storey for item in shell.penetrations]:
        if name is not None:
            heights.setdefault(name, 0.0)
    return heights


def _aggregate(author: Author, whole: Entity, parts: list[Entity]) -> None:
    author.relate(
        "IfcRelAggregates", f"parts of {whole.is_a()}", str(whole.Name),
        RelatingObject=whole, RelatedObjects=parts,
    )  # fmt: skip


def _header(model: Entity, path: Path, timestamp: str) -> None:
    header = model.header
    header.file_description.description = ("ViewDefinition [DesignTransferView_V1.0]",)
    header.file_name.name = path.name
    header.file_name.time_stamp = timestamp
    header.file_name.author = ("",)
    header.file_name.organization = ("",)
    header.file_name.preprocessor_version = "ifcopenshell"
    header.file_name.originating_system = "Seamwright"
    header.file_name.authorization = ""
