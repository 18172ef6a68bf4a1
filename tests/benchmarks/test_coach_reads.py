"""The command that reads many blocks: the same draws every time, kept lines read back whole, a table that counts."""

from __future__ import annotations

import json
from dataclasses import asdict

from planner.files.dump import block_to_json
from tests.benchmarks import coach_kept
from tests.benchmarks.coach_draws import drawn
from tests.benchmarks.coach_kept import Kept, corners, demos, keep, read, read_of
from tests.benchmarks.coach_reads import as_text, every_break, rows
from tests.coach.checks.target_jump import target_jump_every_week
from tests.coach.made import ATHLETE, do, made

MANY = range(60)
FULL = "full-approach-jump-one-leg"


def _kept(key: str, jumps: int) -> Kept:
    block = made(("build", {"mon": [do(FULL, jumps, 1)]})).block
    return Kept(key, "made", ATHLETE, "eight-week", 1.0, json.loads(block_to_json(block)))


def test_a_seed_draws_the_same_athlete_again():
    assert [drawn(seed) for seed in range(5)] == [drawn(seed) for seed in range(5)]


def test_draws_reach_every_kind_of_athlete_that_a_coach_meets():
    people = [drawn(seed) for seed in MANY]
    athletes = [one.inputs.athlete for one in people]
    assert {one.level for one in athletes} == {"novice", "intermediate", "advanced"}
    assert {len(one.training.days) for one in athletes} == {2, 3, 4}
    assert {one.template for one in people} == {
        "eight-week", "twelve-week", "in-season-four-week", "youth-eight-week",
    }  # fmt: skip
    assert {one.approach.steps > 0 for one in athletes} == {True, False}
    assert any(one.joints for one in athletes) and any(one.matches for one in athletes)
    assert any(len(one.tests) < 3 for one in athletes) and any(len(one.tests) > 6 for one in athletes)


def test_corners_change_what_they_name():
    plain = demos()["adult-one-leg-jumper on eight-week"]().athlete
    for key, draw in corners().items():
        assert draw().athlete != plain, key


def test_kept_blocks_are_not_planned_again(tmp_path, monkeypatch):
    file = tmp_path / "kept.jsonl"
    file.write_text(json.dumps(asdict(_kept("seed 1", 3))) + "\n", "utf-8")
    monkeypatch.setattr(coach_kept, "planned", lambda key, draw: _kept(key, 8))
    told: list[str] = []
    wanted = {key: lambda: drawn(0) for key in ("seed 1", "seed 2")}
    first = keep(wanted, file, tell=told.append)
    assert [one.key for one in first] == ["seed 1", "seed 2"] and len(told) == 1
    assert read(file) == [one for one in read(file) if one.block is not None] == keep(wanted, file, tell=told.append)


def test_a_line_that_was_cut_is_made_again(tmp_path, monkeypatch):
    file = tmp_path / "kept.jsonl"
    whole = json.dumps(asdict(_kept("seed 1", 3))) + "\n"
    file.write_text(whole + whole[:50], "utf-8")
    monkeypatch.setattr(coach_kept, "planned", lambda key, draw: _kept(key, 8))
    keep({"seed 2": lambda: drawn(0)}, file, tell=lambda text: None)
    assert [one.key for one in read(file)] == ["seed 1", "seed 2"]


def test_the_table_counts_blocks_that_break_a_check():
    kept = [_kept("seed 1", 3), _kept("seed 2", 8), Kept("seed 3", "", ATHLETE, "eight-week", 1.0, None, "NoBlock")]
    reads = {one.key: read_of(one) for one in kept if one.block is not None}
    found = rows(reads, [target_jump_every_week])
    assert (found[0].applied, list(found[0].broken)) == (2, ["seed 1"])
    text = as_text(kept, reads, found)
    assert "3 athletes, 2 blocks, 1 without one" in text and "no block: seed 3: NoBlock" in text
    assert "would sign (no break of a must): 1" in text
    assert every_break(found).startswith("seed 1: week 1: 3 of the 5-step target jump")
