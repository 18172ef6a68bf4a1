"""``jumpblock plan``: what it writes, what it never overwrites, and on which line it says no."""

from __future__ import annotations

import re

import pytest

from planner.domain.address import Address
from planner.files.digest import is_as_solved
from planner.files.load import load_block
from planner.rules.session_contacts import SessionContacts
from tests.cli.conftest import athlete, change, files_in, set_first


def test_the_block_goes_to_stdout_and_remarks_to_stderr(run, planned):
    outcome = run("plan", athlete(planned))
    assert outcome.code == 0
    assert outcome.out.startswith("file: block/1\n")
    assert "(in a folder above the athlete's file)" in outcome.err
    assert "All weekly ranges met; proved over the whole library" in outcome.err
    assert "\r" not in outcome.err, "progress is for terminals only"


def test_the_block_as_json_reads_back_as_the_same_block(run, planned, tmp_path):
    outcome = run("plan", athlete(planned), "--json")
    assert outcome.json["file"] == "block/1"
    as_json = tmp_path / "block.json"
    as_json.write_bytes(outcome.raw)
    assert is_as_solved(load_block(as_json).require())


@pytest.mark.usefixtures("solved_anew")
def test_two_runs_write_the_same_bytes_without_a_place_of_this_machine(run, planned, tmp_path):
    written = []
    for name in ("one", "two"):
        assert run("plan", athlete(planned), "-o", planned.parent / name / "block.yaml").code == 0
        written.append((planned.parent / name / "block.yaml").read_bytes())
    assert written[0] == written[1]
    block = load_block(planned / "block.yaml").require()
    assert block.athlete.path == "templates/athletes/in-season-player.yaml"
    assert block.library.path == "exercise_library"
    assert str(planned).encode() not in (planned / "block.yaml").read_bytes()


def test_shipped_files_are_referred_to_without_a_place(run, planned, tmp_path):
    alone = tmp_path / "alone.yaml"
    alone.write_bytes(athlete(planned).read_bytes())
    assert run("plan", alone, "-o", tmp_path / "block.yaml").code == 0
    block = load_block(tmp_path / "block.yaml").require()
    assert block.library.path == "(packaged)/exercise_library"
    assert block.template.path == "(packaged)/templates/blocks/in-season-four-week.yaml"
    assert run("check", tmp_path / "block.yaml").code == 0


def test_a_block_as_solved_is_replaced_and_one_edited_by_hand_is_not(run, coach):
    block = coach / "block.yaml"
    assert run("plan", athlete(coach), "-o", block).code == 0
    set_first(block, "minutes", 199)
    edited = block.read_bytes()
    refused = run("plan", athlete(coach), "-o", block)
    assert refused.code == 1 and "[edited-block]" in refused.err and "--force" in refused.err
    assert block.read_bytes() == edited
    assert run("plan", athlete(coach), "-o", block, "--force").code == 0
    assert is_as_solved(load_block(block).require())


def test_a_block_with_a_log_is_not_planned_over(run, coach):
    block = coach / "block.yaml"
    assert run("log", block, "w1s1", "--effort", "7").code == 0
    before = block.read_bytes()
    refused = run("plan", athlete(coach), "-o", block)
    assert refused.code == 1 and "[logged-block]" in refused.err and "jumpblock revise" in refused.err
    assert block.read_bytes() == before
    assert run("plan", athlete(coach), "-o", block, "--force").code == 0


def test_a_block_that_an_edit_broke_counts_as_edited(run, coach):
    block = coach / "block.yaml"
    set_first(block, "minutes", "sixty")
    assert "[edited-block]" in run("plan", athlete(coach), "-o", block).err
    assert run("plan", athlete(coach), "-o", block, "--force").code == 0


@pytest.mark.parametrize("options", [(), ("--force",)])
def test_no_other_file_is_ever_overwritten(run, coach, options):
    before = athlete(coach).read_bytes()
    outcome = run("plan", athlete(coach), "-o", athlete(coach), *options)
    assert outcome.code == 1 and "[not-a-block]" in outcome.err
    assert athlete(coach).read_bytes() == before


@pytest.mark.parametrize(
    ("old", "new", "code", "line_holds"),
    [
        (
            "template: in-season-four-week",
            "template: in-season-for-week",
            "unknown-template",
            "template: in-season-for",
        ),
        ("strap-anchor", "strap-ancor", "unknown-equipment", "strap-ancor"),
        ("movement: back-squat", "movement: back-squad", "unknown-movement", "back-squad"),
        ("mass: 71 kg", "mass: 71", "", "mass: 71"),
        ("    pain: 0", "    pain: 8", "pain", "pain: 8"),
        ("    - {day: wed, minutes: 75, own_work_minutes: 10}\n", "", "training-days", "days:"),
    ],
)
def test_a_no_stands_on_its_line_and_nothing_is_written(run, coach, old, new, code, line_holds):
    change(athlete(coach), old, new)
    before = files_in(coach)
    outcome = run("plan", athlete(coach), "-o", coach / "other" / "block.yaml", "--json")
    assert outcome.code == 1
    finding = next(found for found in outcome.json["findings"] if found["code"] == code or not code)
    assert line_holds in athlete(coach).read_text().splitlines()[finding["line"] - 1]
    assert finding["hint"]
    assert files_in(coach) == before


def test_did_you_mean_goes_for_the_option_too(run, planned):
    outcome = run("plan", athlete(planned), "--template", "in-season-for-week")
    assert outcome.code == 1 and "did you mean 'in-season-four-week'?" in outcome.err


def test_the_option_goes_before_the_line_and_the_line_before_the_usual_template(run, coach):
    change(athlete(coach), "template: in-season-four-week", "template: mine.yaml")
    mine = athlete(coach).parent / "mine.yaml"
    mine.write_bytes((coach / "templates/blocks/in-season-four-week.yaml").read_bytes())
    change(mine, "id: in-season-four-week", "id: mine")
    by_line = run("plan", athlete(coach), "--json")
    assert by_line.json["template"]["path"].endswith("templates/athletes/mine.yaml")
    by_option = run("plan", athlete(coach), "--template", "in-season-four-week", "--json")
    assert by_option.json["template"]["path"].endswith("blocks/in-season-four-week.yaml")
    change(athlete(coach), "template: mine.yaml\n", "")
    assert "templates/blocks/eight-week.yaml" in run("gap", athlete(coach)).err


def test_too_small_a_budget_says_so(run, planned):
    outcome = run("plan", athlete(planned), "--budget", "0.0001")
    assert outcome.code == 1
    assert "[budget-spent]" in outcome.err and "--budget" in outcome.err
    assert "more minute" not in outcome.err  # there is a block without any


@pytest.mark.long
def test_no_block_names_the_rule_and_the_minutes_that_would_do(run, coach):
    change(athlete(coach), "{day: mon, minutes: 75", "{day: mon, minutes: 25")
    outcome = run("plan", athlete(coach))
    assert outcome.code == 1
    assert "[no-block]" in outcome.err and re.search(r"\d+ (more minutes|minutes more)", outcome.err)
    assert "[session-minutes]" in outcome.err and "jumpblock rules session-minutes" in outcome.err


def test_a_new_block_that_a_hard_rule_refuses_is_a_bug_of_ours_and_is_not_written(run, coach, monkeypatch):
    def refuses(rule, plan):
        yield rule.breach(Address(week=1), "the audit counts otherwise than the rows", 1)

    monkeypatch.setattr(SessionContacts, "audit", refuses)
    before = files_in(coach)
    outcome = run("plan", athlete(coach), "-o", coach / "new.yaml")
    assert outcome.code == 70
    assert "[session-contacts] the audit counts otherwise" in outcome.err
    assert files_in(coach) == before
