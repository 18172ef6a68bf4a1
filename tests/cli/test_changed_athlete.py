"""A block outlives the day it was made: what hands it out says what the athlete's file says by now."""

from __future__ import annotations

import shutil

import pytest

from tests.cli.conftest import athlete, change, files_in

OUTPUTS = {"cards": "out.pdf", "calendar": "out.ics"}


def words_for(command: str, coach, tmp_path) -> list[object]:
    if command == "why":
        return ["why", coach / "block.yaml", "--week", "1"]
    return [command, coach / "block.yaml", "-o", tmp_path / "out" / OUTPUTS[command]]


@pytest.mark.parametrize("command", ["cards", "calendar", "why"])
def test_a_changed_athlete_is_told_and_an_unchanged_one_is_not(run, coach, tmp_path, command) -> None:
    words = words_for(command, coach, tmp_path)
    before = run(*words)
    assert before.code == 0 and "changed-athlete" not in before.err
    change(athlete(coach), "level: ", "# a remark\nlevel: ")
    after = run(*words)
    assert after.code == 0 and "[changed-athlete]" in after.err and "plan again" in after.err


@pytest.mark.parametrize("command", ["cards", "calendar", "why"])
def test_pain_that_no_block_is_planned_over_stops_what_hands_the_block_out(run, coach, tmp_path, command) -> None:
    change(athlete(coach), "    pain: 0", "    pain: 8")
    outcome = run(*words_for(command, coach, tmp_path))
    assert outcome.code == 1 and "[pain]" in outcome.err and "see a clinician" in outcome.err
    assert not (tmp_path / "out").exists()


def test_cards_need_no_athletes_file(run, coach, tmp_path) -> None:
    athlete(coach).unlink()
    outcome = run("cards", coach / "block.yaml", "-o", tmp_path / "out.pdf")
    assert outcome.code == 0 and outcome.err == f"written: {tmp_path / 'out.pdf'}\n"
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
