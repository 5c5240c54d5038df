"""The rows of the leak table: effective leakage areas at 4 Pa, each with where it comes from.

Three marks tell how far a row can be trusted. ``seen``: the figure was read in the source.
``from memory``: it is quoted from a known table that was not open when it was written down.
``common practice, no source``: an estimate, by likeness to the rows above it or from what panel
houses reach as a whole.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from seamwright.leakage.places import Layer

NIST = "NIST list, seen"
ASHRAE = "ASHRAE table, from memory"
BASC = "BASC, seen"
GUESS = "common practice, no source"

CITATIONS = (
    "NIST list: National Institute of Standards and Technology, residential leakage areas "
    "(archived 2008), after the ASHRAE Handbook. ASHRAE table: Handbook of Fundamentals 2001, "
    "chapter 26, table 1. BASC: Building America Solution Center, Air Sealing Window and Door "
    "Rough Openings."
)
"""What the short names of the sources stand for."""

Workmanship: TypeAlias = Literal["careful", "ordinary", "careless"]

_CM2 = 1e-4
"""[m²]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class LeakRow:
    """An effective leakage area at 4 Pa by workmanship, per metre or per piece. [m²/m], [m²]

    `name` is what it is in words; `source` says where each figure comes from.
    """

    name: str
    careful: float
    ordinary: float
    careless: float
    per: str
    source: str

    def area(self, workmanship: Workmanship) -> float:
        """Return the area under one workmanship."""
        return {
            "careful": self.careful, "ordinary": self.ordinary, "careless": self.careless
        }[workmanship]  # fmt: skip


def _line(name: str, careful: float, ordinary: float, careless: float, source: str) -> LeakRow:
    """Return a row given in cm² per metre."""
    return LeakRow(
        name=name, careful=careful * _CM2, ordinary=ordinary * _CM2, careless=careless * _CM2,
        per="m", source=source,
    )  # fmt: skip


def _piece(name: str, careful: float, ordinary: float, careless: float, source: str) -> LeakRow:
    """Return a row given in cm² each."""
    return LeakRow(
        name=name, careful=careful * _CM2, ordinary=ordinary * _CM2, careless=careless * _CM2,
        per="piece", source=source,
    )  # fmt: skip


_SEAM = f"{GUESS}; by likeness to the tight ceiling-wall joint, 0.5 cm²/m ({NIST})"
_ANGLE = f"careful 0.5 and ordinary 1.5: ceiling-wall joint, tight and typical ({NIST}); careless "
_ANGLE += f"2.5: its maximum ({ASHRAE}); for panels by likeness, {GUESS}"
_WEDGE = f"{GUESS}; twice the ceiling-wall joint, because bevels leave a wedge"
_PLATE = f"ordinary 4: sole plate without caulk ({NIST}); careful 0.8: with caulk ({NIST}); "
_PLATE += f"careless 5.6: its maximum ({ASHRAE})"

BARE_LINES: Mapping[str, LeakRow] = MappingProxyType(
    {
        "wall_spline": _line("bare wall spline", 0.5, 1.0, 1.5, _SEAM),
        "roof_spline": _line("bare roof spline", 0.5, 1.0, 1.5, _SEAM),
        "floor_spline": _line("bare floor spline", 0.5, 1.0, 1.5, _SEAM),
        "end_joint": _line("bare end joint", 0.5, 1.0, 2.0, _SEAM),
        "wall_corner": _line("bare wall corner", 0.5, 1.5, 2.5, _ANGLE),
        "wall_tee": _line("bare wall tee", 0.5, 1.0, 2.0, _SEAM),
        "sill": _line("bare sill", 0.8, 4.0, 5.6, _PLATE),
        "floor_line": _line("bare floor line", 0.8, 4.0, 5.6, _PLATE),
        "eave": _line("bare eave", 0.5, 1.5, 2.5, _ANGLE),
        "rake": _line("bare rake", 0.5, 1.5, 2.5, _ANGLE),
        "roof_step": _line("bare roof step", 0.5, 1.5, 2.5, _ANGLE),
        "ridge": _line("bare ridge", 1.0, 3.0, 5.0, _WEDGE),
        "hip": _line("bare hip", 1.0, 3.0, 5.0, _WEDGE),
        "valley": _line("bare valley", 1.0, 3.0, 5.0, _WEDGE),
        "opening": _line(
            "open gap around a window",
            8.5,
            8.5,
            8.5,
            f"a 19 mm gap leaks 28.2 cm² per m² of window; here along a window of 1.2 m ({BASC})",
        ),
        "window_unit": _line(
            "window, sash against frame",
            0.10,
            0.24,
            0.65,
            f"careful 0.1 and ordinary 0.24: minimum and best estimate of a weatherstripped "
            f"casement; careless 0.65: best estimate of a double-hung ({ASHRAE})",
        ),
        "door_unit": _line(
            "door, leaf against frame",
            0.35,
            0.70,
            2.0,
            f"around a door of 5.9 m: careless 12 cm² (weatherstripped, {NIST}), ordinary 4 cm² "
            f"(its minimum, {ASHRAE}), careful half of that ({GUESS})",
        ),
    }
)
"""What a line leaks with no seal in it: contact of parts as the crew sets them."""

LINE_SEALS: Mapping[Layer, LeakRow] = MappingProxyType(
    {
        "strip_inner": _line(
            "strip inside",
            0.05,
            0.10,
            0.50,
            f"{GUESS}; of the order of a window gap sealed from inside, 0.15 cm²/m ({BASC}), and "
            "such that whole panel houses come out as reported",
        ),
        "strip_outer": _line(
            "strip outside",
            0.05,
            0.10,
            0.50,
            f"{GUESS}; as the strip inside",
        ),
        "beads": _line(
            "beads",
            0.075,
            0.30,
            1.2,
            f"careful 0.075 and careless 1.2: minimum and maximum of a caulked sole plate "
            f"({ASHRAE}); ordinary between them, geometric mean, {GUESS}",
        ),
        "foam": _line(
            "foam",
            0.20,
            0.50,
            1.5,
            f"{GUESS}; canned foam is an incomplete air seal on its own",
        ),
        "gasket": _line(
            "gasket",
            0.30,
            0.80,
            2.5,
            f"ordinary 0.8: caulked sole plate ({NIST}) by likeness; the others {GUESS}",
        ),
    }
)
"""What one seal along a line leaks by itself."""

BARE_PIECES: Mapping[str, LeakRow] = MappingProxyType(
    {
        "node": _piece("bare node of two lines", 0.10, 0.40, 1.2, GUESS),
        "node_corner": _piece("bare corner of three lines or more", 0.20, 0.80, 2.4, GUESS),
        "pipe": _piece(
            "bare hole of a pipe",
            2.0,
            6.0,
            24.0,
            f"minimum, best estimate, maximum of a penetration without caulk ({ASHRAE})",
        ),
        "duct": _piece(
            "bare hole of a duct",
            2.0,
            6.0,
            24.0,
            f"as the pipe ({ASHRAE}); the duct's own damper is not counted",
        ),
        "chase": _piece("bare end of a chase", 2.0, 6.0, 24.0, f"as the pipe ({ASHRAE})"),
        "box": _piece(
            "bare electrical box",
            0.5,
            2.5,
            6.2,
            f"minimum, best estimate, maximum of an outlet without gasket ({ASHRAE})",
        ),
        "flue": _piece(
            "flue, closed by its listed plate",
            1.0,
            2.0,
            2.0,
            f"minimum, best estimate, maximum of a caulked penetration ({ASHRAE}) by likeness; "
            "the draft of the flue itself is not counted",
        ),
    }
)
"""What a node or service leaks with nothing on it."""

PIECE_SEALS: Mapping[Layer, LeakRow] = MappingProxyType(
    {
        "collar": _piece(
            "collar",
            0.15,
            0.50,
            2.0,
            f"careful 0.15: outlet with gasket; careless 2: penetration with caulk ({ASHRAE}); "
            f"ordinary between them, {GUESS}",
        ),
        "strip_inner": _piece("strip around it inside", 0.30, 1.0, 2.0, f"as beads, {GUESS}"),
        "strip_outer": _piece("strip around it outside", 0.30, 1.0, 2.0, f"as beads, {GUESS}"),
        "beads": _piece(
            "bead around it",
            0.30,
            1.0,
            2.0,
            f"ordinary 1 and careless 2: minimum and best estimate of a caulked penetration "
            f"({ASHRAE}); careful {GUESS}",
        ),
        "foam": _piece("foam around it", 0.50, 1.5, 4.0, f"{GUESS}; foam breaks loose from pipes"),
    }
)
"""What one seal around a service leaks by itself."""

NODE_SEALS: Mapping[Layer, LeakRow] = MappingProxyType(
    {"patch": _piece("patch on a node", 0.05, 0.15, 0.50, GUESS)}
)
"""What a patch leaks by itself."""

PRIOR_ROWS: tuple[LeakRow, ...] = (
    *BARE_LINES.values(),
    *LINE_SEALS.values(),
    *BARE_PIECES.values(),
    *PIECE_SEALS.values(),
    *NODE_SEALS.values(),
)
"""Every row, for the sheet of sources."""
