"""``jumpblock progress`` and ``cards --from``: what a log says, as text, as figures and on the next cards."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.files.load import load_block
from tests.cards.reading import read
from tests.cli.conftest import athlete, change, files_in


@pytest.fixture
def block(coach: Path) -> Path:
    return coach / "block.yaml"


def sessions(block: Path):
    return list(load_block(block).require().sessions)


def lifts(block: Path):
    """Each lift with a load that is done in two sessions of load weeks: (session, number, item), first then second."""
    found: dict[str, list] = {}
    for week in load_block(block).require().weeks:
        for session in week.sessions if week.role in ("build", "intensify") else ():
            for number, item in enumerate(session.items, start=1):
                if item.load_kg and item.sets and item.reps_in_reserve is not None and item.implement == "barbell":
                    found.setdefault(item.movement, []).append((session, number, item))
    return next(places for places in found.values() if len(places) > 1)


@pytest.fixture
def logged(run, block) -> Path:
    """Two more reps left than planned in the first session of a lift; all before it as planned."""
    first, number, item = lifts(block)[0]
    for session in sessions(block):
        words = ["--as-planned", "--effort", 7, "--minutes", 50]
        if session.id == first.id:
            words += ["--item", number, f"{item.load_kg:g} kg x {item.reps}; {item.reps_in_reserve + 2} left"]
        assert run("log", block, session.id, *words).code == 0
        if session.id == first.id:
            return block
    raise AssertionError


def test_progress_in_a_minute(run, logged) -> None:
    outcome = run("progress", logged)
    assert outcome.code == 0 and outcome.err == ""
    item = lifts(logged)[0][2]
    assert f"{item.name}: " in outcome.out and "1 reading" in outcome.out
    assert "Done so far: 100 % of the sets" in outcome.out
    assert "no rule acts on them" in outcome.out
    assert len(outcome.out.splitlines()) < 60


def test_the_same_log_gives_the_same_bytes(run, logged) -> None:
    assert run("progress", logged).raw == run("progress", logged).raw
    assert run("progress", logged, "--json").raw == run("progress", logged, "--json").raw


def test_as_figures(run, logged) -> None:
    data = run("progress", logged, "--json").json
    week = data["weeks"][0]
    assert week["planned"]["working_sets"] == week["done"]["working_sets"] > 0
    assert week["done"]["minutes"] == 50 * sum(one["done"] == "as-planned" for one in data["sessions"][:2])
    assert data["maxima"][0]["band_90_kg"][0] < data["maxima"][0]["now_kg"] < data["maxima"][0]["band_90_kg"][1]


def test_a_missed_session_and_one_without_an_entry_are_named(run, block) -> None:
    first, second, third = sessions(block)[:3]
    run("log", block, first.id, "--missed", "ill")
    run("log", block, third.id, "--as-planned")
    out = " ".join(run("progress", block).out.split())
    assert f"1 missed: {first.id} (ill)" in out and f"1 without an entry: {second.id}" in out


@pytest.mark.parametrize("command", [["progress"], ["cards", "--from", "2025-09-01", "-o", "out.pdf"]])
def test_red_pain_stops_cards_and_is_told(run, block, command, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    run("log", block, "--as-planned", "--pain", "left knee 1 7")
    outcome = run(command[0], block, *command[1:])
    if command[0] == "progress":
        assert outcome.code == 0 and "until a clinician has seen it" in " ".join(outcome.out.split())
    else:
        assert outcome.code == 1 and "[pain]" in outcome.err and files_in(tmp_path).count("out.pdf") == 0


def test_no_log_and_an_empty_one_are_refused(run, block) -> None:
    assert "[no-log]" in run("progress", block).err
    log = block.with_name("block-log.yaml")
    log.write_text("file: log/1\nblock: {path: block.yaml, plan_sha256: '0'}\n")
    outcome = run("progress", block)
    assert outcome.code == 1 and "[empty-log]" in outcome.err


def test_the_next_cards_say_what_was_left_and_the_load_to_take(run, logged, tmp_path) -> None:
    before = logged.read_bytes()
    second, _, item = lifts(logged)[1]
    first = lifts(logged)[0][2]
    outcome = run("cards", logged, "--from", second.date, "-o", tmp_path / "next.pdf", "--paper", "a5")
    assert outcome.code == 0
    text = "\n".join("\n".join(page) for page in read((tmp_path / "next.pdf").read_bytes()).pages)
    left = first.reps_in_reserve
    assert f"Last time {first.load_kg:g} kg × {first.reps} with {left + 2} left, {left} planned" in text.replace(
        "\n", " "
    )
    assert logged.read_bytes() == before
    days = [session.date for session in sessions(logged)]
    assert str(days[0]) not in text and str(second.date) in text
    assert item.movement == first.movement


def test_from_a_day_without_a_log_prints_what_is_to_come(run, block, tmp_path) -> None:
    last = sessions(block)[-1]
    assert run("cards", block, "--from", last.date, "-o", tmp_path / "last.pdf").code == 0
    text = "\n".join("\n".join(page) for page in read((tmp_path / "last.pdf").read_bytes()).pages)
    assert str(last.date) in text and str(sessions(block)[0].date) not in text
    late = run("cards", block, "--from", "2027-01-01", "-o", tmp_path / "none.pdf")
    assert late.code == 1 and "no session from 2027-01-01 on" in late.err


def test_progress_says_that_the_athletes_file_has_changed(run, logged, coach) -> None:
    change(athlete(coach), "level: ", "# a remark\nlevel: ")
    assert "[changed-athlete]" in run("progress", logged).err


def test_the_report_is_a_pdf_of_pictures(run, logged, tmp_path) -> None:
    for paper in ((), ("--paper", "letter")):
        outcome = run("progress", logged, "-o", tmp_path / "report.pdf", *paper)
        assert outcome.code == 0 and outcome.out == "" and "Written:" in outcome.err
    text = "\n".join("\n".join(page) for page in read((tmp_path / "report.pdf").read_bytes()).pages)
    assert "Planned and done" in text and "Maxima" in text
    assert run("progress", logged, "--paper", "a4").code == 2
    (tmp_path / "mine.txt").write_text("mine")
    assert run("progress", logged, "-o", tmp_path / "mine.txt").code == 1
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_what_is_unfinished_from_memory_or_edited_is_said(run, block) -> None:
    run("log", block, "--as-planned", "--effort", 7, "--minutes", 50, "--written", "later")
    log = block.with_name("block-log.yaml")
    second, third = sessions(block)[1:3]
    log.write_text(
        f"{log.read_text().rstrip()}\n\n  - {{session: {second.id}, date: {second.date}, done: unfinished}}\n"
    )
    run("log", block, third.id, "--as-planned")
    outcome = run("progress", block)
    out = " ".join(outcome.out.split())
    assert "1 written from memory: w1s1" in out and f"1 without an entry: {second.id} (unfinished)" in out
    assert "[edited-block]" not in outcome.err
    change(block, f"minutes: {third.minutes}", f"minutes: {third.minutes + 1}")
    assert "[edited-block]" in run("progress", block).err


def test_an_amber_joint_says_what_is_open_and_where_to_restart(run, block) -> None:
    hard = [s for s in sessions(block) if any(i.tier == "high" and i.contacts for i in s.items)]
    for session in sessions(block)[:3]:
        words = ["--pain", "left knee 1 4"] if session.id == "w2s1" else []
        run("log", block, session.id, "--as-planned", *words)
    out = " ".join(run("progress", block).out.split())
    high = sum(i.contacts for i in hard[0].items if i.tier == "high")
    assert "left knee: amber" in out and "after 3 more green sessions" in out
    assert f"from {high // 2} high contacts a week (50 % of week 1's)" in out
    cards = run("cards", block, "--from", "2025-09-16", "-o", "-")
    assert cards.code == 0 and "[pain]" in cards.err
