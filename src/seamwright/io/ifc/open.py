"""Open a building model safely: every way a file can be broken ends in a sentence, not a crash."""

from __future__ import annotations

import re
from pathlib import Path

from seamwright.errors import FormatError, InputError, Problem, missing_package
from seamwright.io.ifc.references import ReferenceFaultError, check_references
from seamwright.io.ifc.types import Entity

MOST_BYTES = 50_000_000
"""Largest model read; larger ones carry far more than a shell. Our own choice."""

SCHEMAS = ("IFC2X3", "IFC4", "IFC4X3")

_SCHEMA = re.compile(rb"FILE_SCHEMA\s*\(\s*\(\s*'([^']*)'", re.IGNORECASE)


def library() -> Entity:
    """Return the optional package that reads and writes building models.

    Raises
    ------
    InputError
        If it is not installed; the sentence says how to install it.
    """
    try:
        import ifcopenshell  # noqa: PLC0415 - optional package
        import ifcopenshell.geom  # noqa: PLC0415 - optional package
        import ifcopenshell.guid  # noqa: PLC0415 - optional package
        import ifcopenshell.util.element  # noqa: PLC0415 - optional package
        import ifcopenshell.util.unit  # noqa: PLC0415 - optional package
    except ImportError as error:
        raise missing_package("ifcopenshell", "a building model", "ifc") from error
    return ifcopenshell


def open_model(path: str | Path) -> Entity:
    """Return the opened model.

    Raises
    ------
    InputError
        If the optional package is missing or the file is larger than `MOST_BYTES`.
    FormatError
        If the file is not a complete model in one of `SCHEMAS`.
    """
    ifc = library()
    file = Path(path)
    data = _bytes(file)
    schema = _checked_header(file, data)
    try:
        check_references(ifc, data, schema)
    except ReferenceFaultError as fault:
        raise _broken(file, fault.sentence, "export it again", fault.line) from fault
    ifc.get_log()
    try:
        model = ifc.open(str(file))
    except Exception as error:
        raise _broken(
            file, f"cannot be read as a model in {schema}", "export it again", _logged(ifc, data)
        ) from error
    complaint = _unknown_entity(ifc.get_log())
    if complaint is not None:
        word, offset = complaint
        line = data.count(b"\n", 0, offset) + 1
        raise _broken(file, f"{word} is not an entity of {schema}", "export it again as IFC4", line)
    return model


def _bytes(file: Path) -> bytes:
    try:
        size = file.stat().st_size
        if size > MOST_BYTES:
            raise InputError(
                [
                    Problem(
                        subject=file.name,
                        sentence=f"the model is {size / 1e6:.0f} MB, the limit is "
                        f"{MOST_BYTES / 1e6:.0f} MB",
                        remedy="export only walls, roofs, slabs, beams and openings",
                        file=str(file),
                    )
                ]
            )
        return file.read_bytes()
    except OSError as error:
        reason = error.strerror or "it cannot be opened"
        raise InputError(
            [
                Problem(
                    subject=file.name,
                    sentence=f"the model cannot be read: {reason}",
                    remedy="check the path",
                    file=str(file),
                )
            ]
        ) from error


def _checked_header(file: Path, data: bytes) -> str:
    if not data.strip(b" \t\r\n\0"):
        raise _broken(file, "the file is empty", "export the model again")
    if data[:2] == b"PK":
        raise _broken(file, "this is a zip archive", "unpack it and give the .ifc file inside")
    if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        raise _broken(file, "this is an XML file", "export the model as a plain .ifc file")
    if not data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"ISO-10303-21"):
        raise _broken(
            file, "this is not a building model: it does not begin with ISO-10303-21",
            "export the model as a plain .ifc file", 1,
        )  # fmt: skip
    last = data.count(b"\n", 0, len(data.rstrip())) + 1
    if b"END-ISO-10303-21" not in data[-2000:]:
        raise _broken(
            file, "the file breaks off: its last line is not END-ISO-10303-21;",
            "copy or export it again", last,
        )  # fmt: skip
    found = _SCHEMA.search(data[:20000])
    name = found.group(1).decode("ascii", "replace").upper() if found else ""
    if not name.startswith(SCHEMAS) or (name.startswith("IFC4X") and name[:6] != "IFC4X3"):
        shown = f"the schema {name!r} is not known" if name else "the header names no schema"
        line = data.count(b"\n", 0, found.start()) + 1 if found else None
        raise _broken(file, shown, "export as IFC4 or IFC2x3", line)
    return name


def _unknown_entity(log: str) -> tuple[str, int] | None:
    found = re.search(r"Entity with name '(\w[\w-]*)' not found in schema .* at offset (\d+)", log)
    if found is None:
        return None
    return found.group(1), int(found.group(2))


def _logged(ifc: Entity, data: bytes) -> int | None:
    found = re.search(r"at offset (\d+)", ifc.get_log())
    return data.count(b"\n", 0, int(found.group(1))) + 1 if found else None


def _broken(file: Path, sentence: str, remedy: str, line: int | None = None) -> FormatError:
    return FormatError([
        Problem(
            subject=file.name, sentence=sentence, remedy=remedy, file=str(file), line=line
        )
    ])  # fmt: skip
