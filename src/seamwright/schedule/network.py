"""The network of a house: every task, and every reason why one waits for another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from seamwright.joints.types import Register
from seamwright.schedule.links_bury import cap_key, face_hiders, hiders
from seamwright.schedule.links_order import in_order_of_work
from seamwright.schedule.links_work import (
    Order,
    order_of_sealing,
    order_of_setting,
    order_of_testing,
    stands,
)
from seamwright.schedule.rates import DEFAULT_PRODUCTIVITY, Productivity
from seamwright.schedule.rules import RULES
from seamwright.schedule.tasks_kinds import kind_of
from seamwright.schedule.tasks_make import by_task, make_task, sort_key
from seamwright.schedule.tasks_parts import INSIDE_LEVEL
from seamwright.schedule.tasks_seals import Seal, list_seals
from seamwright.schedule.tasks_site import Site, survey
from seamwright.schedule.tasks_zones import look_zones, prep_zone
from seamwright.schedule.types import Link, Network
from seamwright.seals.types import SealSchedule
from seamwright.shell.types import Shell

_OPEN_TIME = frozenset({"beads", "gasket", "recess"})


def build_network(
    shell: Shell,
    register: Register,
    schedule: SealSchedule,
    *,
    productivity: Productivity = DEFAULT_PRODUCTIVITY,
    bearing: Iterable[str] = (),
) -> Network:
    """Return every task of a house and what each must wait for.

    Parameters
    ----------
    shell, register, schedule
        The house, its joints, and its seals.
    productivity
        Rates and times; see `seamwright.schedule.rates.with_rates` for the user's.
    bearing
        Ids of inner walls that carry a floor or roof and so stand before it.

    Returns
    -------
    Tasks in an order that every link allows, links by task. Every seal is made by one task, and
    every task that hides it comes after. A seal that nothing hides, and a primary line that
    nobody can reach, are findings.
    """
    site = survey(shell, register, schedule, bearing)
    seals = list_seals(site)
    made = by_task(seals)
    hidden = hiders(site, seals)
    names = _task_ids(site, made, hidden)
    links = [*_bury_links(seals, hidden, productivity)]
    links += _work_links(site, made, names, links, productivity)
    links += _loose_ends(names, links)
    tasks = [make_task(site, name, made.get(name, []), productivity) for name in names]
    ranked = in_order_of_work(tasks, links, key=lambda task: sort_key(site, task.id))
    place = {task.id: number for number, task in enumerate(ranked)}
    return Network(
        tasks=ranked,
        links=tuple(sorted(links, key=lambda k: (place[k.after], place[k.before], k.rule))),
        findings=(*_out_of_reach(schedule), *_findings(seals, hidden)),
    )


def _task_ids(
    site: Site, made: Mapping[str, list[Seal]], hidden: Mapping[str, tuple[tuple[str, str], ...]]
) -> tuple[str, ...]:
    """Return the ids of all tasks: what sets parts, makes seals, hides them, and looks at them."""
    found = dict.fromkeys(("sides", "delivery", "base"))
    found.update(dict.fromkeys(f"set.{part.id}" for part in site.parts))
    found.update(dict.fromkeys(stands(site)))
    roofs = [part.id for part in site.parts if part.kind == "roof"]
    found.update(dict.fromkeys(f"cover.{part}" for part in roofs))
    found.update(dict.fromkeys(["roof_ready", "finish.ceiling"] if roofs else []))
    for joint in site.register.joints:
        if joint.kind in {"ridge", "hip", "valley"} and site.meets[joint.id]:
            found[f"cap.{cap_key(site, joint)}"] = None
        name = site.opening(joint)
        if name is not None:
            found.update(dict.fromkeys((f"buck.{name}", f"window.{name}", "mask")))
    found.update(dict.fromkeys(made))
    found.update(dict.fromkeys(task for rows in hidden.values() for task, _ in rows))
    found.update(dict.fromkeys(_zone_ids(site, made)))
    found.update(dict.fromkeys(_finish_ids(site)))
    if any(kind_of(task) == "seal" for task in made):
        found.update(dict.fromkeys(("rough_in", "look_services")))
    found.update(dict.fromkeys(("weathered_in", "fan_test", "mend", "retest", "handover")))
    return tuple(found)


def _zone_ids(site: Site, made: Mapping[str, list[Seal]]) -> Iterable[str]:
    """Yield drying, cleaning, priming and looking for the zones that have strips."""
    for task, seals in made.items():
        late = _late_tee(site, task)
        if kind_of(task) in {"tape", "patch", "press"} or late:
            zone = prep_zone(site, task, seals)
            yield from (f"dry.{zone}", f"clean.{zone}")
            if task.startswith("tape.sill/") and _on_concrete(site, seals):
                yield f"prime.{zone}"
            yield from () if late else (f"look.{z}" for z in look_zones(site, task, seals))


def _late_tee(site: Site, task: str) -> bool:
    kind, _, key = task.partition(".")
    return kind == "tee" and key in site.by_id and site.by_id[key].level[0] == INSIDE_LEVEL


def _on_concrete(site: Site, seals: Iterable[Seal]) -> bool:
    concrete = {s.id for s in site.shell.supports if s.kind in {"slab", "stem_wall"}}
    joints = [site.joints[seal.subject] for seal in seals if seal.subject in site.joints]
    return any(concrete & set(joint.others) for joint in joints)


def _finish_ids(site: Site) -> Iterable[str]:
    for storey in site.storeys:
        yield from (f"finish.lining.{storey}", f"finish.floor.{storey}")
    for joint in site.register.joints:
        if joint.kind not in {"opening", "penetration"}:
            yield from (task for task, _ in face_hiders(site, joint, "outer") if _is_outside(task))


def _is_outside(task: str) -> bool:
    return kind_of(task) in {"clad", "soffit"}


def _bury_links(
    seals: Iterable[Seal], hidden: Mapping[str, tuple[tuple[str, str], ...]], work: Productivity
) -> Iterable[Link]:
    """Yield one link for each pair of a task that makes seals and one that hides them."""
    pairs: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for seal in seals:
        for task, rule in hidden[seal.id]:
            if task != seal.task:
                pairs[seal.task, task, rule].append(seal.id)
    for (before, after, rule), buried in pairs.items():
        most = work.open_time if kind_of(before) in _OPEN_TIME else None
        if rule == "cladding_hides" and kind_of(before) == "tape":
            most = work.exposure
        yield Link(
            before=before,
            after=after,
            rule=rule,
            reason=RULES[rule].reason,
            lag=work.foam_cure if kind_of(before) in {"fill", "channel"} else 0.0,
            most=most,
            buries=tuple(buried),
        )


def _work_links(
    site: Site,
    made: Mapping[str, list[Seal]],
    names: Iterable[str],
    buries: Iterable[Link],
    work: Productivity,
) -> list[Link]:
    """Return the links of the order of work, once each, where no bury link says the same."""
    tasks = frozenset(names)
    known = {(link.before, link.after) for link in buries}
    orders: dict[tuple[str, str], str] = {}
    every: list[Order] = [
        ("sides", "base", "side_signed"),
        ("delivery", "base", "panels_checked"),
        *order_of_setting(site, tasks),
        *order_of_sealing(site, made, tasks),
        *order_of_testing(tasks),
    ]
    for before, after, rule in every:
        if before in tasks and after in tasks and before != after and (before, after) not in known:
            orders.setdefault((before, after), rule)
    lags = {
        "bond_builds": work.bond,
        "primer_flashes": work.flash_off,
    }
    return [
        Link(
            before=before,
            after=after,
            rule=rule,
            reason=RULES[rule].reason,
            lag=work.drying if kind_of(after) == "dry" else lags.get(rule, 0.0),
        )
        for (before, after), rule in sorted(orders.items())
    ]


def _loose_ends(names: Iterable[str], links: Iterable[Link]) -> list[Link]:
    """Return links that tie tasks without a predecessor to the checked bearing, and all to the end.

    The two checks before the bearing are the only tasks that wait for nothing.
    """
    listed = list(links)
    waits = {link.after for link in listed}
    goes_on = {link.before for link in listed}
    found = [
        Link(before="base", after=name, rule="base_checked", reason=RULES["base_checked"].reason)
        for name in names
        if name not in waits and name not in {"sides", "delivery", "base"}
    ]
    found += [
        Link(
            before=name, after="handover", rule="finished_all", reason=RULES["finished_all"].reason
        )
        for name in names
        if name not in goes_on and name not in {"handover", "base"}
    ]
    return found


def _out_of_reach(schedule: SealSchedule) -> Iterable[str]:
    """Yield the primary lines that no task can seal, as the seal schedule found them."""
    for finding in schedule.findings:
        code = finding.id.split(":", maxsplit=1)[0]
        if code in {"reach-inner", "reach-outer"}:
            yield (
                f"No task can seal {finding.subject} on its {code.removeprefix('reach-')} face, "
                "which carries the primary seal and is never within reach; the list of findings "
                "says what to do."
            )


def _findings(
    seals: Iterable[Seal], hidden: Mapping[str, tuple[tuple[str, str], ...]]
) -> tuple[str, ...]:
    return tuple(
        f"Nothing in the order of work hides {seal.id}; keep it in sight until the last test."
        for seal in seals
        if not hidden[seal.id]
    )
