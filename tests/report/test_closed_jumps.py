"""What the gate closes is said by the gap and by the plan, with the figures and on the squat's line."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.jobs.plan_block import closed_jumps
from planner.jobs.sources import Sources, Wanted, read_sources
from planner.report.gap_text import gap_text
from tests.solve.demos import ROOT

ADULT = ROOT / "templates/athletes/adult-one-leg-jumper.yaml"


def _sources(folder: Path, squat: str) -> Sources:
    """The adult with another load in the squat's test; every file is the shipped one else."""
    text = ADULT.read_text("utf-8")
    at = text.index("movement: back-squat")
    load = text.index("load:", at)
    end = text.index("\n", load)
    path = folder / "adult.yaml"
    path.write_text(f"{text[:load]}load: {squat}{text[end:]}", "utf-8")
    return read_sources(Wanted(str(path)))


def _in_one_line(text: str) -> str:
    return " ".join(text.split())


def test_a_weak_squat_is_told_in_the_gap_and_on_its_line(tmp_path: Path) -> None:
    sources = _sources(tmp_path, "80 kg")
    estimate, problem = sources.estimate_and_problem()
    closed = sources.closed_jumps(estimate)
    assert (
        closed is not None
        and "closed: the back squat shows 94 kg (± 9 kg);" in closed
        and "a squat of 122 kg opens them" in closed
    )
    text = gap_text(estimate, sources.inputs.athlete, closed=closed)
    assert _in_one_line(closed) in _in_one_line(text)
    [note] = closed_jumps(sources, problem)
    assert (note.level, note.code) == ("note", "closed-jumps") and note.message == closed.rstrip(".")
    assert ADULT.read_text("utf-8").splitlines()[note.line + 1].strip().startswith("movement: back-squat")


@pytest.mark.parametrize("squat", ["125 kg", "100 kg"])
def test_a_squat_that_reaches_the_bar_with_its_error_closes_nothing(tmp_path: Path, squat: str) -> None:
    """100 kg x 5 with one left shows a little less than the 122 kg that are asked."""
    sources = _sources(tmp_path, squat)
    estimate, problem = sources.estimate_and_problem()
    assert sources.closed_jumps(estimate) is None and closed_jumps(sources, problem) == []
