r"""Air through a joint hour by hour: leakage that passes it, and air that loops behind one seal.

**Through.** A joint is three lines one behind another: the inner line (strip or open crack), the
channel with its beads, the outer line. Each leaks by a power law; in series the same flow passes
each and the pressures add:

.. math:: C = \bigl(\sum_k C_k^{-1/n}\bigr)^{-n}, \qquad
          q = C\,|\Delta p|^n \operatorname{sign}\Delta p

with C from the leakage per metre at 50 Pa. The pressure, indoors less outdoors, is

.. math:: \Delta p = g (\rho_o - \rho_i)(z - z_0) + \tfrac12 \rho_o v^2 (c_i - c_f) + p_{fan}

with z the height of the joint, z_0 the neutral level, v the wind, c_i and c_f the pressure
coefficients of the room and of the face. Where the year tells the direction of the wind and the
face the way it looks, the coefficient follows the angle between them; else the face takes the wind
from its four quarters in turn, `TURN` hours each in an order that favors none, so that hours of
inflow and outflow alternate as they do on any wall.

**Loop.** When one line is open and the other tight, air of the open side enters the channel where
it stands lighter or heavier than that air, runs along it and leaves at the other end. Over a
height H between dams, with channel air of density ρ_c beside air of density ρ_a,

.. math:: g\,|\rho_c - \rho_a|\,\frac{H}{2} =
          2\Bigl(\frac{Q}{C_l H / 2}\Bigr)^{1/n} + R\,\frac{H}{2}\,Q

where C_l is the open line per metre and R the resistance of the channel to flow along it (per
metre; laminar between plates, 12 μ / (w³ d), w wide and d deep). Half the height takes air in, half
gives it out. For R = 0 it is 5 % above the exact integral at n = 0.65. Cold channel air sinks: in
winter room air enters high and leaves low, whatever way reports tell it; both wet the upper end.
The section is one of the half that takes air in, where the loop wets: the mean there, q = 2 Q / H
per metre, runs along the seam to the far line and leaves the section along the joint. At the very
end it is (n + 1) times that mean. Where sloping seams without dams feed a ridge, their loop over
their own rise comes on top, spread along it by their number per metre.

**Limits.** No pulsing, no flow along the joint from other joints, no moisture given up on the way
along the channel before it reaches this section. Channel temperatures are steady: a share between
room and outdoors.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from seamwright.climate.moist_air import DRY_AIR_GAS, KELVIN, STANDARD_PRESSURE, density
from seamwright.moisture.transient.types import AirWay
from seamwright.moisture.types import Counts, Floats

EXPONENT = 0.65
"""Flow exponent of cracks of a house. [-] ASTM E1827's one-point method assumes it (from
memory)."""

GRAVITY = 9.80665
"""[m/s²] The standard value, NIST SP 811, appendix B."""

VISCOSITY = 1.8e-5
"""Of air at 15 °C. [Pa·s] U.S. Standard Atmosphere, 1976 (from memory)."""

AIR_CONDUCTIVITY = 0.025
"""[W/(m·K)] ISO 10456, table of gases (from memory)."""

NUSSELT = 7.54
"""Laminar flow between plates at one temperature, by twice the gap. [-] Incropera, Fundamentals of
Heat and Mass Transfer (from memory)."""

WALL_PRESSURE = (0.6, -0.45, -0.25, -0.45)
"""Coefficients of wind pressure on a wall of a low house, wind from its front, right, back, left.
[-] M. W. Liddament, Air infiltration calculation techniques, AIVC 1986 (from memory)."""

ROOF_PRESSURE = (-0.3, -0.5, -0.5, -0.5)
"""The same on a roof of 20 to 40°. [-] As above, rounded (from memory)."""

ROOM_PRESSURE = -0.14
"""That of the room: the mean of the walls, leaks lying evenly around. [-]"""

TURN = 6
"""How long the wind keeps to one quarter. [h] common practice, no source"""

_GOLDEN = 0.6180339887498949
_BISECTIONS = 60


@dataclass(frozen=True, kw_only=True, slots=True)
class SealLines:
    """What each line of a joint would let through alone at 50 Pa. [m³/(h·m)]

    0 stops everything; infinity is open. `gap` is how wide the channel stands open [m], `run` the
    height over which it goes on undammed [m], `depth` how deep it is through the section [m];
    `feeders` like channels run into each metre of it [1/m], undammed over `feeder_run` [m].
    """

    inner: float
    channel: float
    outer: float
    gap: float = 0.001
    run: float = 0.0
    feeders: float = 0.0
    feeder_run: float = 0.0
    depth: float = 0.1
    exponent: float = EXPONENT

    @property
    def through(self) -> float:
        """What passes the joint at 50 Pa. [m³/(h·m)]"""
        return in_series((self.inner, self.channel, self.outer), self.exponent)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Airs:
    """Air on both sides by the hour: temperatures [°C], vapor pressures [Pa], wind [m/s] and where
    it comes from, clockwise from north [rad], None where that is not known. `pressure` is that of
    the air at the height of the place. [Pa]
    """

    inside: Floats
    outside: Floats
    vapor_inside: Floats
    vapor_outside: Floats
    wind: Floats
    direction: Floats | None = None
    pressure: float = STANDARD_PRESSURE


@dataclass(frozen=True, kw_only=True, slots=True)
class Exposed:
    """How a joint meets pressure. `above` the neutral level [m]; coefficients of wind pressure in
    the room, and on the face for wind from its front, right, back and left [-]; `shelter` is the
    wind there over that at 10 m in the open [-]; `fan` is indoors less outdoors by fans [Pa].
    `facing` is the way the face looks, clockwise from north [rad]: with it, and a direction of the
    wind, the wind comes from where it does; else from each quarter in turn.
    """

    above: float
    room_coefficient: float = ROOM_PRESSURE
    face_coefficients: tuple[float, float, float, float] = WALL_PRESSURE
    shelter: float = 0.5
    fan: float = 0.0
    facing: float | None = None


def in_series(leaks: tuple[float, ...], exponent: float = EXPONENT) -> float:
    """Return the leak of lines one behind another, in the unit they are given in.

    >>> in_series((1.0, 1.0), 0.5)
    0.7071067811865475
    """
    if min(leaks) <= 0.0:
        return 0.0
    total = sum(0.0 if math.isinf(c) else c ** (-1.0 / exponent) for c in leaks)
    return math.inf if total == 0.0 else float(total**-exponent)


def rest_of(through: float, others: float, exponent: float = EXPONENT) -> float:
    """Return what one more line must leak so that `through` passes it and the `others`.

    Infinity when the others alone pass no more than that.
    """
    if through <= 0.0:
        return 0.0
    left = through ** (-1.0 / exponent)
    left -= 0.0 if math.isinf(others) else others ** (-1.0 / exponent)
    return math.inf if left <= 0.0 else float(left**-exponent)


def pressure(airs: Airs, exposed: Exposed) -> Floats:
    """Return the pressure over the joint, indoors less outdoors, by the hour. [Pa]"""
    inner = density(airs.inside, airs.vapor_inside, airs.pressure)
    outer = density(airs.outside, airs.vapor_outside, airs.pressure)
    stack = GRAVITY * (outer - inner) * exposed.above
    push = 0.5 * outer * (exposed.shelter * airs.wind) ** 2
    on_face = _on_face(airs, exposed)
    return np.asarray(stack + push * (exposed.room_coefficient - on_face) + exposed.fan)


def _on_face(airs: Airs, exposed: Exposed) -> Floats:
    """Return the coefficient of wind pressure on the face by the hour: straight between those of
    the quarters where the direction is known (common practice, no source), else in turn. [-]
    """
    quarters = np.array(exposed.face_coefficients)
    if airs.direction is None or exposed.facing is None:
        blocks = np.arange(len(airs.wind)) // TURN
        return np.asarray(quarters[(4.0 * (_GOLDEN * blocks % 1.0)).astype(np.int64)])
    angle = (airs.direction - exposed.facing) % math.tau
    turned = np.interp(angle, np.arange(5) * math.pi / 2, [*quarters, quarters[0]])
    return np.asarray(turned, dtype=np.float64)


def through_flow(airs: Airs, exposed: Exposed, leakage: float, exponent: float = EXPONENT
                 ) -> Floats:  # fmt: skip
    """Return the dry air that leaks out through a joint, negative inward. [kg/(s·m)]

    `leakage` is that of the whole joint at 50 Pa. [m³/(h·m)]
    """
    over = pressure(airs, exposed)
    volume = leakage / 3600.0 * np.sign(over) * (np.abs(over) / 50.0) ** exponent
    out = _dry(airs.inside, airs.vapor_inside, airs.pressure)
    into = _dry(airs.outside, airs.vapor_outside, airs.pressure)
    return np.asarray(volume * np.where(over > 0.0, out, into))


def loop_flow(airs: Airs, lines: SealLines, *, room: bool, share: float = 0.5) -> Floats:
    """Return the dry air that a loop takes in through the open line of one side. [kg/(s·m)]

    It is the mean over the half of the height that takes air in. `room` tells whether room air
    loops (through the inner line) or outdoor air. `share` is how far the channel's mean temperature
    lies from the room's to the outdoors', half by default (common practice, no source). [-]
    """
    line = lines.inner if room else lines.outer
    near = airs.inside if room else airs.outside
    vapor = airs.vapor_inside if room else airs.vapor_outside
    channel = airs.inside + share * (airs.outside - airs.inside)
    heavy = density(channel, vapor, airs.pressure) - density(near, vapor, airs.pressure)
    weight = GRAVITY * np.abs(heavy)
    volume = np.zeros(len(near))
    if line > 0.0 and lines.run > 0.0:
        volume += _looped(weight, line, lines.run, lines) / (lines.run / 2)
    if line > 0.0 and lines.feeders > 0.0 and lines.feeder_run > 0.0:
        volume += _looped(weight, line, lines.feeder_run, lines) * lines.feeders
    return np.asarray(volume * _dry(near, vapor, airs.pressure))


def _looped(weight: Floats, line: float, run: float, lines: SealLines) -> Floats:
    """Return the flow around a loop of this height [m] by halving. [m³/s] `weight` is what a metre
    of the channel's air weighs more or less than that beside it. [Pa/m]
    """
    half, lift = run / 2, weight * run / 2
    along = 12.0 * VISCOSITY / (lines.gap**3 * lines.depth) * half
    n = lines.exponent
    conductance = math.inf if math.isinf(line) else line / 3600.0 / 50.0**n * half
    low, high = np.zeros(len(lift)), lift / along
    for _ in range(_BISECTIONS):
        flow = (low + high) / 2
        need = 2.0 * (flow / conductance) ** (1.0 / n) + along * flow
        low, high = np.where(need < lift, flow, low), np.where(need < lift, high, flow)
    return np.asarray((low + high) / 2)


def _dry(temperature: Floats, vapor: Floats, whole: float) -> Floats:
    """Return the mass of dry air in a volume under a `whole` pressure [Pa]. [kg/m³]"""
    return (whole - vapor) / (DRY_AIR_GAS * (temperature + KELVIN))


def contacts(shares: Floats, gap: float) -> Floats:
    """Return the heat conductance between moving air and both walls at each volume. [W/(m·K)]

    `shares` is the stretch of the channel that each volume has [m], `gap` its width [m].
    """
    film = NUSSELT * AIR_CONDUCTIVITY / (2.0 * gap)
    return np.asarray(2.0 * film * shares, dtype=np.float64)


def ways_of(cells: Counts, shares: Floats, airs: Airs, exposed: Exposed, lines: SealLines, *,
            outdoors: int = 1, share: float = 0.5) -> tuple[AirWay, ...]:  # fmt: skip
    """Return the ways of a joint's air: through it, and looping on either side.

    `cells` run from the room's face to the outer face, `shares` is the stretch of each. [m] Looped
    air runs along them to the far line and leaves the section there, along the joint.
    """
    contact = contacts(shares, lines.gap)
    through = through_flow(airs, exposed, lines.through, lines.exponent)
    found = [AirWay(first=0, last=outdoors, cells=cells, contact=contact, flow=through)]
    room = loop_flow(airs, lines, room=True, share=share)
    if room.any():
        found.append(AirWay(first=0, last=0, cells=cells, contact=contact, flow=room))
    outer = loop_flow(airs, lines, room=False, share=share)
    if outer.any():
        found.append(AirWay(first=outdoors, last=outdoors, cells=cells[::-1],
                            contact=contact[::-1], flow=outer))  # fmt: skip
    return tuple(found)
