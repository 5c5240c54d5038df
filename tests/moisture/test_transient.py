"""Runs hour by hour against exact solutions, and what a run says when it cannot be had."""

from __future__ import annotations

import math
import sys
from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import expm
from skfem import BilinearForm, ElementQuad2, LinearForm, MeshQuad, asm, solve
from skfem.assembly import Basis
from skfem.helpers import dot, grad
from tests.moisture.walls import EPS, MATERIALS, OSB, TIGHT, seam, seam_boxes

from seamwright.climate.moist_air import humidity_ratio, saturation_pressure
from seamwright.errors import InputError
from seamwright.moisture.transient.line import line_mesh
from seamwright.moisture.transient.run import run_case, run_cases
from seamwright.moisture.transient.types import (
    AirWay,
    Case,
    Curve,
    Drive,
    HygroMaterial,
    Probe,
    Run,
    Settings,
)
from seamwright.moisture.types import Floats

AIR_HEAT = 1006.0
FIRM = 1e-6


def stuff(**changes: object) -> HygroMaterial:
    """Return a made-up material that holds little and lets no vapor through."""
    plain = HygroMaterial(
        id="plain", name="plain", density=1000.0, heat_capacity=1000.0, conductivity=1.0,
        conductivity_rise=0.0, sorption=Curve(x=(0.0, 1.0), y=(0.0, 10.0)),
        vapor_factor=Curve(x=(0.0, 1.0), y=(1e7, 1e7)), liquid=None, source=(),
        flag="common practice, no source",
    )  # fmt: skip
    return replace(plain, **changes)  # type: ignore[arg-type]


def steady_drive(hours: int, inside: float, outside: float, wet: tuple[float, float]) -> Drive:
    """Return airs that stay the same; `wet` are their relative humidities."""
    t = np.tile([inside, outside], (hours, 1))
    return Drive(temperature=t, face=t, vapor=saturation_pressure(t) * np.array(wet),
                 rain=np.zeros((hours, 2)))  # fmt: skip


def test_a_slab_warms_as_the_exact_series() -> None:
    """A slab between two faces that jump follows Fourier's series within 0.2 % of the jump."""
    x = np.linspace(0.0, 0.4, 81)
    mesh = line_mesh(x, (0,) * 80, heat=(FIRM, FIRM), vapor=(TIGHT, TIGHT))
    hours = 20
    case = Case(mesh=mesh, materials=(stuff(),), drive=steady_drive(hours, 10.0, 10.0, (0, 0)),
                temperature=np.zeros(81), humidity=np.zeros(81))  # fmt: skip
    run = run_case(case, Settings(step=60.0))
    decay = 1.0 / 1e6 * hours * 3600.0 * (math.pi / 0.4) ** 2
    series = [4 / (n * math.pi) * np.sin(n * math.pi * x / 0.4) * math.exp(-decay * n**2)
              for n in range(1, 60, 2)]  # fmt: skip
    assert run.end_temperature == pytest.approx(10.0 * (1.0 - sum(series)), abs=0.02)


def through(contact: float, flow: float, *, n: int = 200, depth: float = 0.2) -> tuple[Floats, Run]:
    """Return places and the steady run of a slab with air passing along it."""
    x = np.linspace(0.0, depth, n + 1)
    mesh = line_mesh(x, (0,) * n, heat=(FIRM, FIRM), vapor=(TIGHT, TIGHT))
    width = np.full(n + 1, depth / n)
    width[[0, -1]] /= 2.0
    hours = 400
    way = AirWay(first=0, last=1, cells=np.arange(n + 1), contact=contact * width,
                 flow=np.full(hours, flow))  # fmt: skip
    case = Case(
        mesh=mesh, materials=(stuff(density=10.0),), ways=(way,),
        drive=steady_drive(hours, 20.0, -10.0, (0, 0)), temperature=np.zeros(n + 1),
        humidity=np.zeros(n + 1),
    )  # fmt: skip
    return x, run_case(case)


@pytest.mark.parametrize("flow", [0.002, -0.004, 0.0])
def test_air_in_contact_bends_the_profile_as_the_exact_solution(flow: float) -> None:
    """In local equilibrium the profile is the exponential of the Péclet number."""
    x, run = through(math.inf, flow)
    peclet = flow * AIR_HEAT / 1.0
    share = np.expm1(peclet * x) / math.expm1(peclet * 0.2) if flow else x / 0.2
    assert run.converged
    assert run.end_temperature == pytest.approx(20.0 - 30.0 * share, abs=0.08)


@pytest.mark.parametrize("flow", [0.002, -0.004])
def test_air_in_poor_contact_follows_the_exact_pair_of_equations(flow: float) -> None:
    """With a finite contact wall and air follow their two linear equations."""
    contact = 40.0
    x, run = through(contact, flow)
    flow_heat = flow * AIR_HEAT
    # T, dT/dx, air: with conductivity one
    gain = contact / flow_heat
    a = np.array([[0, 1, 0], [contact, 0, -contact], [gain, 0, -gain]])
    enters = 0.0 if flow > 0 else 0.2
    full = expm(a * 0.2)
    inlet = expm(a * enters)[2]
    rows = np.array([[1, 0, 0], full[0], inlet])
    start = np.linalg.solve(rows, [20.0, -10.0, 20.0 if flow > 0 else -10.0])
    exact = np.array([(expm(a * place) @ start)[0] for place in x])
    assert run.end_temperature == pytest.approx(exact, abs=0.08)


def test_air_that_meets_a_cold_face_leaves_what_it_cannot_hold() -> None:
    """The water that stays is the flow times the difference of humidity ratios to saturation."""
    hours, flow = 48, 1e-5
    mesh = line_mesh(np.array([0.0, 0.01]), (0,), heat=(TIGHT, FIRM), vapor=(TIGHT, TIGHT))
    way = AirWay(first=0, last=0, cells=np.array([1]), contact=np.array([math.inf]),
                 flow=np.full(hours, flow))  # fmt: skip
    drive = steady_drive(hours, 20.0, 2.0, (0.5, 0.8))
    case = Case(
        mesh=mesh, materials=(stuff(),), drive=drive, ways=(way,),
        temperature=np.full(2, 2.0), humidity=np.ones(2),
        probes=(Probe(name="cold half", parts=np.array([1])),),
    )  # fmt: skip
    run = run_case(case)
    inlet, held = (float(humidity_ratio(p)) for p in
                   (0.5 * saturation_pressure(20.0), saturation_pressure(2.0)))  # fmt: skip
    expected = flow * (inlet - held) * hours * 3600.0
    assert run.balance.water_stored == pytest.approx(expected, rel=0.01)
    assert run.humidity[-1, 0] == 1.0
    assert run.water[-1, 0] * 5.0 == pytest.approx(0.05 + expected, rel=0.01)


def foam_wall(hours: int, cold: float) -> Case:
    """Return foam between a room and a vapor-tight outer skin of its own."""
    x = np.linspace(0.0, 0.1, 31)
    mesh = line_mesh(x, (0,) * 30, heat=(0.13, 0.04), vapor=(2e8, TIGHT))
    return Case(
        mesh=mesh, materials=(MATERIALS[EPS],), drive=steady_drive(hours, 20.0, cold, (0.5, 0.8)),
        temperature=np.full(31, 10.0), humidity=np.full(31, 0.5),
        probes=(Probe(name="foam", parts=np.arange(60)),),
    )  # fmt: skip


def test_condensate_stays_is_counted_and_dries_out_again() -> None:
    """Foam gathers free water in the cold, and loses all of it in the warmth, with closed books."""
    winter = run_case(foam_wall(2000, -10.0))
    warm = replace(foam_wall(4000, 30.0), temperature=winter.end_temperature,
                   humidity=winter.end_humidity)  # fmt: skip
    summer = run_case(warm)
    assert winter.end_humidity.max() > 1.0
    assert winter.balance.water_stored > 0.1
    assert winter.balance.water_stored == pytest.approx(-summer.balance.water_stored, rel=0.2)
    assert summer.end_humidity.max() < 0.6
    for run in (winter, summer):
        assert run.converged
        assert max(run.balance.heat_error, run.balance.water_error) < 1e-6


def test_rain_behind_the_covers_is_taken_in() -> None:
    """What a rim's share of the rain brings is what the board gains while it is not full."""
    x = np.linspace(0.0, 0.011, 12)
    mesh = line_mesh(x, (0,) * 11, heat=(0.13, 0.04), vapor=(TIGHT, TIGHT), rain=(0.0, 0.01))
    drive = steady_drive(24, 10.0, 10.0, (0.5, 0.5))
    drive = replace(drive, rain=np.tile([0.0, 1e-4], (24, 1)))
    case = Case(mesh=mesh, materials=(MATERIALS[OSB],), drive=drive,
                temperature=np.full(12, 10.0), humidity=np.full(12, 0.5))  # fmt: skip
    run = run_case(case)
    assert run.balance.water_stored == pytest.approx(24 * 3600 * 1e-6, rel=1e-6)


def test_several_cases_at_once_give_what_each_gives_alone() -> None:
    """Threads do not change a figure, and the order of runs is that of the cases."""
    cases = [seam(48, leak=leak) for leak in (0.0, 1e-5, 1e-4)]
    together = run_cases(cases, workers=2)
    for case, run in zip(cases, together, strict=True):
        assert np.array_equal(run.water, run_case(case).water)


def test_a_run_that_does_not_settle_says_so() -> None:
    """Where no step settles the run stops, has no figures from there on, and gives advice."""
    hard = Settings(tolerance=1e-12, most_iterations=2, least_step=1800.0)
    run = run_case(seam(24), hard)
    assert not run.converged
    assert "least_step" in run.advice
    assert np.isnan(run.water[-1]).all()


def test_a_shorter_step_is_taken_where_the_whole_one_does_not_settle() -> None:
    """Halved steps get through what a whole step cannot do in few iterations, with closed books."""
    run = run_case(seam(48, leak=1e-3), Settings(tolerance=1e-7, most_iterations=9))
    assert run.converged
    assert run.steps > 48
    assert run.balance.water_error < 1e-6


def test_a_missing_compiler_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the optional package the sentence says what to install."""
    monkeypatch.setitem(sys.modules, "seamwright.moisture.transient.job", None)
    with pytest.raises(InputError, match=r"numba.*seamwright\[dryness\]"):
        run_case(seam(1))


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("temperature", np.zeros(3), "3 temperatures"),
        ("humidity", np.full(486, 1.5), "start humidity 1.5"),
        ("materials", MATERIALS[:2], "a part leads to number 3, but there are 2"),
        ("mesh", replace(seam(1).mesh, rim_heat=np.zeros(54)), "resistance of a rim to heat"),
        ("probes", (Probe(name="gone", parts=np.array([10**6])),), "probe gone"),
    ],
)
def test_a_case_that_does_not_fit_together_is_refused(
    field: str, value: object, sentence: str
) -> None:
    """The sentence names what does not fit, with its value."""
    case = replace(seam(1), **{field: value})  # type: ignore[arg-type]
    with pytest.raises(InputError, match=sentence):
        run_case(case)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"step": 1000.0}, "does not divide an hour"),
        ({"least_step": 7200.0}, "least step of 7200 s"),
        ({"tolerance": 0.5}, "tolerance of 0.5"),
        ({"order": 3}, "order of 3"),
    ],
)
def test_settings_out_of_range_are_refused(changes: dict[str, float], sentence: str) -> None:
    """A step that does not divide an hour, or a tolerance that says nothing, is told."""
    with pytest.raises(InputError, match=sentence):
        run_case(seam(1), Settings(**changes))


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"sorption": Curve(x=(0.0, 1.0), y=(5.0, 1.0))}, "does not rise"),
        ({"vapor_factor": Curve(x=(0.0, 1.0), y=(0.5, 2.0))}, "vapor factor of 0.5"),
        ({"density": 0.0}, "not above zero"),
        ({"liquid": Curve(x=(1.0, 0.0), y=(1.0, 2.0))}, "do not rise"),
    ],
)
def test_a_material_that_cannot_be_is_refused(changes: dict[str, object], sentence: str) -> None:
    """Figures that no material has are told by name."""
    case = replace(foam_wall(1, 0.0), materials=(stuff(**changes),))
    with pytest.raises(InputError, match=sentence):
        run_case(case)


def two_dimensional(coefficient: Floats, films: tuple[float, float], air: tuple[float, float],
                    x: Floats, y: Floats) -> Floats:  # fmt: skip
    """Return the steady potential at the points of a plain grid by scikit-fem's Q2 elements."""
    mesh = MeshQuad.init_tensor(x, y)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    i, j = np.searchsorted(x, middle[0]) - 1, np.searchsorted(y, middle[1]) - 1
    basis = Basis(mesh, ElementQuad2())
    k = coefficient[i, j][:, None]
    matrix = asm(BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))), basis,
                 k=np.broadcast_to(k, (mesh.nelements, basis.X.shape[1])))  # fmt: skip
    load = np.zeros(basis.N)
    for film, level, place in ((films[0], air[0], 0.0), (films[1], air[1], y[-1])):
        edge = basis.boundary(mesh.facets_satisfying(lambda p, at=place: np.isclose(p[1], at)))
        matrix = matrix + asm(BilinearForm(lambda u, v, w: u * v), edge) / film
        load += asm(LinearForm(lambda v, w: v), edge) * level / film
    found = solve(matrix, load)[basis.nodal_dofs[0]]
    order = np.lexsort((mesh.p[1], mesh.p[0]))
    return np.asarray(found[order])


def test_a_steady_seam_agrees_with_an_independent_solver() -> None:
    """Temperatures across a lumber spline lie within 1 % of scikit-fem's on quadratic elements."""
    case = seam(1, leak=0.0, fine=2)
    mesh = replace(case.mesh, rim_vapor=np.full(len(case.mesh.rim_cell), TIGHT))
    hours = 1500
    run = run_case(replace(case, mesh=mesh, drive=steady_drive(hours, 20.0, -10.0, (0, 0)),
                           humidity=np.zeros(len(mesh.points))))  # fmt: skip
    x, y, kinds = seam_boxes(2)
    conductivity = np.array([m.conductivity for m in MATERIALS])[kinds]
    independent = two_dimensional(conductivity, (0.13, 0.06), (20.0, -10.0), x, y)
    assert run.converged
    assert run.end_temperature == pytest.approx(independent, abs=0.3)
