"""A block outlives the day it was made: what hands it out says what the athlete's file says by now."""

from __future__ import annotations

import shutil

import pytest

from tests.cli.conftest import athlete, change, files_in

# What is put after the block; the first three hand it out.
MORE = {
    "cards": ["-o", "{out}/out.pdf"],
    "calendar": ["-o", "{out}/out.ics"],
    "why": ["--week", "1"],
    "progress": [],
    "change": ["w3s1", "--sets", "1=1", "-o", "{out}/out.yaml"],
    "check": [],
}
HANDS_OUT = list(MORE)[:3]


def words_for(command: str, coach, tmp_path) -> list[object]:
    return [command, coach / "block.yaml", *(word.format(out=tmp_path / "out") for word in MORE[command])]


@pytest.fixture
def logged(run, coach):
    assert run("log", coach / "block.yaml", "w1s1", "--as-planned").code == 0
    return coach


@pytest.mark.parametrize("command", HANDS_OUT)
def test_a_changed_athlete_is_told_and_an_unchanged_one_is_not(run, coach, tmp_path, command) -> None:
    words = words_for(command, coach, tmp_path)
    before = run(*words)
    assert before.code == 0 and "changed-athlete" not in before.err
    change(athlete(coach), "level: ", "# a remark\nlevel: ")
    after = run(*words)
    assert after.code == 0 and "[changed-athlete]" in after.err and "plan again" in after.err


@pytest.mark.parametrize("command", MORE)
def test_what_changed_is_told_by_its_lines(run, logged, tmp_path, command) -> None:
    change(athlete(logged), "    pain: 0", "    pain: 2")
    change(athlete(logged), "body_mass: 71 kg", "body_mass: 72.5 kg")
    change(athlete(logged), "{day: wed, minutes: 75, own_work_minutes: 10}", "{day: wed, minutes: 30}")
    done = run(*words_for(command, logged, tmp_path))
    (line,) = [one for one in (done.out + done.err).splitlines() if "[changed-athlete]" in one]
    assert "joints: knee or patellar tendon, pain 2 of 10 (planned with 0)" in line
    assert "body_mass: 72.5 kg (planned with 71 kg)" in line
    assert "training: wed has 30 min (planned with sessions of up to " in line


TOUCH = "{kind: touch, date: 2025-09-04, take_off: two-leg, run_up: true, trials: [3.00 m]}"
ELSEWHERE = {
    "a new test": ("tests:\n", f"tests:\n  - {TOUCH}\n", "tests: touch of 2025-09-04 (3.00 m) is new"),
    "another level": ("level: intermediate", "level: novice", "level: novice (planned with intermediate)"),
    "a day less": ("day: wed, minutes", "day: thu, minutes", "training: no wed (planned with sessions of up to "),
    "what no block keeps": ("level: ", "# a remark\nlevel: ", "in-season-player.yaml; jumpblock check"),
}  # fmt: skip


@pytest.mark.parametrize("old, new, told", ELSEWHERE.values(), ids=ELSEWHERE)
def test_each_line_that_a_block_keeps_is_held_against_it(run, coach, tmp_path, old, new, told) -> None:
    change(athlete(coach), old, new)
    assert told in run(*words_for("calendar", coach, tmp_path)).err


def test_a_file_that_cannot_be_read_is_told_as_such(run, coach, tmp_path) -> None:
    change(athlete(coach), "    pain: 0", "    pain: 70")
    assert "the file cannot be read" in run(*words_for("cards", coach, tmp_path)).err


def test_pain_stops_the_cards_also_where_the_template_is_gone(run, coach, tmp_path) -> None:
    change(athlete(coach), "    pain: 0", "    pain: 8")
    (coach / "templates/blocks/in-season-four-week.yaml").unlink()
    done = run(*words_for("cards", coach, tmp_path))
    assert done.code == 1 and "[pain]" in done.err


@pytest.mark.parametrize("command", HANDS_OUT)
def test_pain_that_no_block_is_planned_over_stops_what_hands_the_block_out(run, coach, tmp_path, command) -> None:
    change(athlete(coach), "    pain: 0", "    pain: 8")
    outcome = run(*words_for(command, coach, tmp_path))
    assert outcome.code == 1 and "[pain]" in outcome.err and "see a clinician" in outcome.err
    assert not (tmp_path / "out").exists()


def test_cards_need_no_athletes_file(run, coach, tmp_path) -> None:
    athlete(coach).unlink()
    outcome = run("cards", coach / "block.yaml", "-o", tmp_path / "out.pdf")
    assert outcome.code == 0 and outcome.err.startswith(f"Written: {tmp_path / 'out.pdf'}\n") and "[" not in outcome.err
    assert "out.pdf" in files_in(tmp_path)


def test_an_athlete_in_the_home_folder_is_found_from_a_block_outside_it(run, coach, tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("HOME", str(tmp_path / "home/jane"))
    shutil.move(coach, tmp_path / "home/jane/coach")
    shared = tmp_path / "shared"
    made = run("plan", athlete(tmp_path / "home/jane/coach"), "-o", shared / "block.yaml")
    assert made.code == 0, made.err
    assert run("log", shared / "block.yaml", "w1s1", "--as-planned").code == 0
    assert not [path for path in shared.iterdir() if "jane" in path.read_text("utf-8")]
    assert 'path: "~/coach/templates/athletes/in-season-player.yaml"' in (shared / "block.yaml").read_text("utf-8")
    assert run("check", shared / "block.yaml").code == 0
    assert run("cards", shared / "block.yaml", "-o", shared / "cards.pdf", "--week", 1).code == 0
    change(athlete(tmp_path / "home/jane/coach"), "body_mass: 71 kg", "body_mass: 70 kg")
    assert "[changed-athlete]" in run("cards", shared / "block.yaml", "-o", shared / "cards.pdf", "--week", 1).err
