"""The invented logs of the demo athletes fit their blocks as they are planned now, and tell what they were made for."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from planner.domain.training_log import TrainingLog
from planner.files.dump import block_to_yaml
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.jobs.follow_block import followed
from planner.jobs.log_block import open_log
from planner.jobs.log_from_files import entries_from
from planner.report.followed import Followed
from planner.report.progress_text import progress_text
from tests.solve.demos import ROOT, solved

LOGS = {
    "adult": "adult-ordinary-start.csv",
    "in-season": "in-season-knee-amber.csv",
    "youth": "youth-nine-days-ill.csv",
}
# The adult's whole block, and the test days after it (tests/demos/test_after_the_block.py).
TO_THE_RETEST = ("adult-to-the-retest.csv", "adult-retest.csv")


@cache
def log_of(demo: str) -> TrainingLog:
    """The demo's sheet read into the log of its block, with every finding that has."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "block.yaml"
        path.write_text(block_to_yaml(solved(demo).block), "utf-8")
        opened = open_log(str(path))
        for entry in entries_from(str(ROOT / "templates/logs" / LOGS[demo]), opened):
            opened.file.put(entry)
        assert opened.file.findings == ()
        return opened.file.log


@cache
def told(demo: str) -> Followed:
    made = solved(demo)
    rules = load_follow_up(locate_follow_up().path).require()
    touch = made.inputs.benchmarks.test_kinds["touch"]
    return followed(made.block, made.problem, log_of(demo), rules, touch, [])


def test_every_shipped_log_is_tried() -> None:
    assert sorted(path.name for path in (ROOT / "templates/logs").iterdir()) == sorted([*LOGS.values(), *TO_THE_RETEST])


@pytest.mark.parametrize("demo", LOGS)
def test_it_can_be_read_in_a_minute(demo: str) -> None:
    text = progress_text(told(demo))
    assert len(text.splitlines()) < 50 and max(map(len, text.splitlines())) <= 98


def test_an_ordinary_start() -> None:
    """Five weeks, one session missed, loads drifting up."""
    found = told("adult")
    assert len(found.weeks) == 5 and [one.planned.id for one in found.done if one.missed] == ["w2s3"]
    squat = next(one for one in found.lifts if one.movement == "back-squat")
    assert squat.tested is not None and squat.tested.own
    assert squat.low_kg > squat.tested.load_kg, "the maximum has left the test's figure behind"
    (advice,) = [one for one in found.load_advice(found.coming[0]) if one.item.movement == "back-squat"]
    assert advice.move == "raise" and advice.load_kg > (advice.item.load_kg or 0)


def test_a_knee_that_goes_amber_and_comes_back() -> None:
    (knee,) = told("in-season").pain
    assert [day.state for day in knee.days] == ["amber", "green", "green", "green"]
    assert knee.step == len(told("in-season").rules.pain.steps) - 1


def test_an_illness_of_nine_days() -> None:
    found = told("youth")
    ill = [one for one in found.done if one.missed]
    assert {one.entry.why for one in ill} == {"ill"}
    back = next(one for one in found.done if one.date > ill[-1].date)
    before = [one for one in found.done if one.date < ill[0].date][-1]
    assert (back.date - ill[0].date).days == 9 and (ill[0].date - before.date).days <= 3
    assert found.weeks[2].done.contacts == 0 < found.weeks[2].planned.contacts
