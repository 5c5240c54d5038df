"""Every command on a small plan."""

from __future__ import annotations

import json
import math

import pytest
from tests.hand_house import register

from seamwright.cli.status import status_of
from seamwright.joints.types import Register
from seamwright.seals.types import Finding, Sentence


def finding(severity: str) -> Finding:
    """Return a finding of the given severity."""
    return Finding(
        id="F1",
        severity=severity,  # type: ignore[arg-type]
        subject="A.1-A.2",
        sentence=Sentence(text="a"),
        way_out=Sentence(text="b"),
    )


CLOSED = Register(joints=(), nodes=(), ledger=(), breaks=())


def test_status_tells_what_needs_attention() -> None:
    """Notes leave 0; a stop, a thing to look at or an open line make it 1."""
    assert status_of(CLOSED, [finding("note")]) == 0
    assert status_of(CLOSED, [finding("attention")]) == 1
    assert status_of(CLOSED, [finding("stop")]) == 1
    assert status_of(register()) == 1


def test_check_says_panels_joints_and_signatures(run, cabin) -> None:
    """A check names the house, counts its parts and says that nobody has signed."""
    result = run("check", cabin)
    assert result.exit_code in {0, 1}
    assert "Test cabin [b]#1" in result.output
    assert "UNSIGNED" in result.output
    assert "Joints by kind" in result.output


def test_check_as_json_says_whether_the_plan_is_usable(run, cabin, tmp_path) -> None:
    """The JSON of a check has one shape for a good plan and one for a bad one."""
    good = json.loads(run("check", cabin, "--json").stdout)
    assert good["usable"] is True
    assert good["closes"] is (not good["breaks"])
    bad = tmp_path / "bad.yaml"
    bad.write_text("site: 3\n", encoding="utf-8")
    result = run("check", bad, "--json")
    assert result.exit_code == 2
    told = json.loads(result.stdout)
    assert told["usable"] is False
    assert {"sentence", "remedy", "file", "line"} <= set(told["problems"][0])


def test_joints_as_json_total_to_their_parts(run, cabin) -> None:
    """The totals by kind are the exact sums of the joints listed."""
    document = json.loads(run("joints", cabin, "--json").stdout)
    for kind, total in document["totals"].items():
        lengths = [j["length_m"] for j in document["joints"] if j["kind"] == kind]
        assert total == {"count": len(lengths), "length_m": math.fsum(lengths)}
    assert document["joints"]
    assert document["nodes"]


def test_joints_prints_every_id(run, cabin) -> None:
    """The printed register has every joint and node of the JSON one."""
    document = json.loads(run("joints", cabin, "--json").stdout)
    shown = run("joints", cabin).output
    ids = [item["id"] for item in (*document["joints"], *document["nodes"])]
    assert [name for name in ids if name not in shown] == []


def test_units_change_the_print_and_not_the_json(run, cabin) -> None:
    """Metric output prints metres; the JSON is SI whatever the units."""
    assert run("joints", cabin, "--units", "metric").output != run("joints", cabin).output
    metric = run("joints", cabin, "--units", "metric", "--json").stdout
    assert metric == run("joints", cabin, "--json").stdout


def test_seals_give_every_joint_a_seal_or_a_finding(run, cabin) -> None:
    """No joint is silently left without a seal."""
    joints = json.loads(run("joints", cabin, "--json").stdout)["joints"]
    seals = json.loads(run("seals", cabin, "--json").stdout)
    held = {s["joint"] for key in ("strips", "beads", "fills", "gaskets") for s in seals[key]}
    held |= {finding["subject"] for finding in seals["findings"]}
    assert [j["id"] for j in joints if j["id"] not in held] == []


def test_seals_mark_what_nobody_signed(run, cabin) -> None:
    """Without decisions in the plan every face reads UNSIGNED, printed and as data."""
    seals = json.loads(run("seals", cabin, "--json").stdout)
    assert {side["status"] for side in seals["sides"]} == {"UNSIGNED"}
    assert "UNSIGNED" in run("seals", cabin).output


def test_order_lines_are_the_sum_of_their_pieces(run, cabin) -> None:
    """What a strip line takes is the exact sum of the pieces cut for it."""
    order = json.loads(run("order", cabin, "--json").stdout)
    for line in order["lines"]:
        pieces = [p["length_m"] for p in order["pieces"] if p["stock"] == line["id"]]
        if pieces:
            assert line["net_m"] == pytest.approx(math.fsum(pieces), abs=1e-12)
    shown = run("order", cabin).output
    assert [line["id"] for line in order["lines"] if line["id"] not in shown] == []


def test_output_into_a_file_is_plain(run, cabin) -> None:
    """Outside a terminal there are no escape codes and no frames."""
    for command in ("check", "joints", "seals", "order"):
        shown = run(command, cabin).output
        assert "\x1b" not in shown
        assert not {"─", "│", "━"} & set(shown)
