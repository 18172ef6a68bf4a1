"""The adult demo's whole block by its shipped log, its retest from the shipped sheet, and the chain that follows."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from planner.domain.block import Block
from planner.files.load import load_block
from planner.jobs.outcome_of_block import outcome_of
from planner.jobs.sources import Wanted, read_sources
from planner.jobs.take_over import next_block
from planner.report.next_block_text import next_block_text
from planner.report.outcome_text import outcome_text
from tests.demos.adult_folder import adult_folder
from tests.demos.readme import in_order, sample, shown
from tests.demos.three_blocks import LOG, run, seam, three_blocks
from tests.solve.demos import ROOT, solved


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """A coach's folder with the demo's kept block, its log up to the retest, and the retest in the athlete's file."""
    coach = adult_folder(tmp_path_factory.mktemp("after") / "coach")
    run("log", coach / "milo-block.yaml", "--from", LOG)
    run("test", coach / "milo.yaml", "--from", ROOT / "templates/logs/adult-retest.csv")
    return coach


def test_the_outcome_of_the_demo(folder: Path) -> None:
    outcome = outcome_of(str(folder / "milo-block.yaml"))
    assert (outcome.before.trials, outcome.after.trials, len(outcome.after.dates)) == (3, 6, 2)
    assert outcome.by_days is not None and outcome.by_days.agrees and outcome.by_days.days >= 6
    assert outcome.share_done is not None and outcome.share_done > outcome.rule.least_done
    assert outcome.verdict.worked and outcome.row in ("jump-up", "both-up")


def test_what_the_next_block_takes_over(folder: Path) -> None:
    sources = read_sources(Wanted(str(folder / "milo.yaml")))
    found = next_block(str(folder / "milo-block.yaml"), sources, folder)
    before, block = found.before, solved("adult").block
    assert 3 <= found.rested <= 7 and found.start.weekday() == block.weeks[0].start.weekday()
    assert before.usual_week.weeks == (3, 5, 6, 7), "load weeks; the deload and the taper are none"
    assert "back-squat" not in before.maxima and before.maxima["straight-bar-hinge"] > 1.05
    mains = [one.movement for one in before.known if one.part == "main-lift" and one.to_the_end]
    assert mains == ["back-squat", "straight-bar-hinge"]
    assert before.ladder["run-up jumps"] == 100
    assert found.longer["drop jumps"] is not None and found.longer["drop jumps"] < 5
    text = next_block_text(found, block, sources.athlete.require())
    assert len(text.splitlines()) < 30 and max(map(len, text.splitlines())) <= 98


def test_readme_shows_the_outcome_as_it_is_printed(folder: Path) -> None:
    (command,) = shown("outcome")
    assert command == "outcome milo-block.yaml" and sample(command)
    assert in_order(sample(command), outcome_text(outcome_of(str(folder / "milo-block.yaml")))) == []


@pytest.mark.long
def test_three_blocks_in_a_row(tmp_path: Path) -> None:
    """Each proved, each fine by every rule, and the first load week within what growth allows over the block before."""
    paths = three_blocks(tmp_path / "three")
    blocks: list[Block] = [load_block(path).require() for path in paths]
    assert [block.proof.status for block in blocks] == ["optimal"] * 3
    for before, new in pairwise(blocks):
        assert all(one.now <= one.most for one in seam(before, new)), seam(before, new)
        assert new.before is not None and new.before.last_hard_day > before.weeks[-1].sessions[-1].date
        assert (new.weeks[0].start - new.before.last_hard_day).days > 3
