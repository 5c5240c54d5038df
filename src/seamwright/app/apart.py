"""Reading of files that others made, in a process of its own: what breaks there breaks alone."""

from __future__ import annotations

import multiprocessing
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.desk.whole import listed_text
from seamwright.io.ifc import read_ifc


def model_text(data: bytes, name: str) -> str:
    """Return the plan text of a building model; what was guessed stands in front as comments.

    Raises
    ------
    InputError
        When it is no model that can be read, or the optional package is not installed.
    """
    spawn = multiprocessing.get_context("spawn")
    with TemporaryDirectory(prefix="seamwright-") as folder:
        path = Path(folder) / "model.ifc"
        path.write_bytes(data)
        with ProcessPoolExecutor(1, mp_context=spawn) as pool:
            try:
                return pool.submit(_text_of, path, name).result()
            except BrokenProcessPool:
                problem = Problem(
                    subject=name,
                    sentence=f"{name} made the reader of models break off",
                    remedy="export it again, with walls, roofs, slabs, beams and openings only",
                    file=name,
                )
                raise FormatError([problem]) from None


def _text_of(path: Path, name: str) -> str:
    try:
        reading = read_ifc(path)
    except InputError as error:
        raise InputError(
            [replace(p, subject=name, file=None if p.file is None else name)
             for p in error.problems]
        ) from None  # fmt: skip
    told = (
        f"From the building model {name}.",
        *(f"Used: {words}" for words in reading.used),
        *(f"Guessed: {words}" for words in reading.guessed),
        *(f"Left out: {words}" for words in reading.left_out),
    )
    return listed_text(reading.plan, told)
