"""The rule table of the order of work: every reason why one task waits for another.

A link of the network names its rule by id, and every rule says in one sentence why it holds and
where it comes from. The approved details, the erection plan and the product sheets outrank them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from seamwright.sources import COMMON_PRACTICE


@dataclass(frozen=True, kw_only=True, slots=True)
class Rule:
    """One reason for an order of work. `buries` marks rules whose later task hides seals."""

    id: str
    reason: str
    buries: bool = False
    source: str = COMMON_PRACTICE


def _rule(rule_id: str, reason: str, *, source: str = COMMON_PRACTICE) -> Rule:
    return Rule(id=rule_id, reason=reason, source=source)


def _bury(rule_id: str, reason: str, *, source: str = COMMON_PRACTICE) -> Rule:
    return Rule(id=rule_id, reason=reason, buries=True, source=source)


_ALL = (
    _rule("side_signed", "nobody can order or place a strip before the designer signed its face"),
    _rule("panels_checked", "a damaged or wet panel is turned away before it is lifted, not after"),
    _rule("base_checked", "a bearing out of level opens the lowest joint for good"),
    _rule("neighbor_stands", "a joint is closed against what stands already"),
    _rule("carried_by", "what carries it must stand first"),
    _rule("walls_braced", "the storey below must stand plumb and braced before it is loaded"),
    _rule(
        "beads_last", "beads are laid last, so that they do not skin over while other work is done"
    ),
    _bury("sill_hides", "the sill plate comes down on the gasket and beads under it"),
    _bury("panel_closes", "the panel closes the joint on its beads, plugs and dams"),
    _bury("panel_stands_on", "the panel stands on the strip and hides it"),
    _bury("plate_roofed", "the roof panel hides the plate and what seals it"),
    _bury("ledger_hides", "the ledger hides the wall behind it"),
    _bury("partition_hides", "the inner wall hides the strip and beads behind it"),
    _bury("timber_hides", "panels on a timber hide what lies between them"),
    _bury("buck_hides", "the buck hides the beads in the recess"),
    _bury("window_hides", "the window or door hides the strip between buck and skin"),
    _bury("cover_hides", "the cover hides the outer side of the roof seams"),
    _bury("cap_hides", "the cap or flashing hides the filled wedge"),
    _bury("soffit_hides", "the sub-fascia and soffit hide the outer top corner of the wall"),
    _bury("cladding_hides", "the water layer hides the outer strips"),
    _bury("floor_hides", "the floor finish hides the line at the wall's foot"),
    _bury("lining_hides", "the linings hide the inner strips of the walls"),
    _bury("ceiling_hides", "the ceiling hides the inner strips of the roof"),
    _bury("strip_over_foam", "the strip goes over the holes through which the seam was filled"),
    _rule("timber_before_drape", "a strip is draped over a timber that stands"),
    _rule("roof_ready", "no roof panel is lifted before timbers, draped strips and plates are in"),
    _rule("cap_after_cover", "a cap or flashing laps over the cover on both sides"),
    _rule("set_before_fill", "a wedge is filled once both panels stand"),
    _rule("set_before_strip", "a strip on the roof bonds to panels that are set"),
    _rule("same_day_cover", "no roof panel stays open overnight"),
    _rule("covered_all", "inside work starts under a closed cover"),
    _rule("openings_masked", "rain must not blow in through open bucks"),
    _rule("buck_after_panel", "a buck is set in a panel that stands"),
    _rule("dry_first", "a strip does not bond to a damp skin"),
    _rule("clean_first", "a strip bonds to the skin, not to the dust on it"),
    _rule("primer_flashes", "primer must turn tacky before a strip goes on"),
    _rule("weathered_in", "inside strips wait for dry, clean skins out of the weather"),
    _rule("strips_before_patch", "a node patch goes over the strips that meet there"),
    _rule("wings_after_cover", "wings are pressed up from below once the roof is covered"),
    _rule("look_before_hiding", "somebody looks at a line before it goes out of sight"),
    _rule("holes_known", "a service can be sealed once it passes through the panel"),
    _rule("all_sealed", "a fan test before all seals are made finds only what is known"),
    _rule("bond_builds", "strips and sealant need time before they are loaded with pressure"),
    _rule("test_before_mend", "leaks are mended where the test found them"),
    _rule("mend_before_retest", "a mend counts when a second test shows it"),
    _rule("tested_before_finish", "a leak behind a finish costs many times a leak in sight"),
    _rule("finished_all", "the last test is made on the house as it will be lived in"),
    _rule("user", "you asked for it in the days part of the plan"),
)

RULES: Mapping[str, Rule] = MappingProxyType({rule.id: rule for rule in _ALL})
"""Rules by id, in the order of the work."""

HIDERS: tuple[tuple[str, str, str], ...] = (
    ("floor finish", "floor", "floor_hides"),
    ("window or door", "window", "window_hides"),
    ("cladding or grade", "clad", "cladding_hides"),
    ("water layer", "clad", "cladding_hides"),
    ("step flashing", "clad", "cladding_hides"),
    ("sub-fascia or soffit", "soffit", "soffit_hides"),
    ("underlayment", "cover", "cover_hides"),
    ("ridge cap", "cap", "cap_hides"),
    ("hip cap", "cap", "cap_hides"),
    ("valley flashing", "cap", "cap_hides"),
    ("ceiling or drywall", "ceiling", "ceiling_hides"),
    ("ceiling", "ceiling", "ceiling_hides"),
    ("drywall or cabinets", "line", "lining_hides"),
    ("drywall or ceiling", "line", "lining_hides"),
    ("linings", "line", "lining_hides"),
)
"""What the register says hides a face, the task that does it, and the rule: `common practice`."""

UNDER_SILL: tuple[str, ...] = ("under", "deck")
"""A bead laid before setting whose place has one of these words lies under the sill plate."""

ON_PLATE: tuple[str, ...] = ("top plate", "bevel to plate")
"""A bead whose place has one of these words goes in with the top plate, before the roof."""
