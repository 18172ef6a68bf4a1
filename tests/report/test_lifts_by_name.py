"""A tested lift is told by the library's name, wherever the gap speaks of it, and never by its id."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.files.load import load_library
from planner.jobs.sources import Wanted, read_sources
from planner.report.gap_text import gap_text
from tests.files.snippets import ATHLETE
from tests.solve.demos import ROOT

LIBRARY = load_library(ROOT / "exercise_library").require()


@pytest.mark.parametrize(
    ("movement", "side", "name"),
    [("straight-bar-hinge", "", "deadlift"), ("rear-foot-split-squat", ", side: left", "rear-foot-raised split squat")],
)
def test_a_lift_is_told_by_its_name(tmp_path: Path, movement: str, side: str, name: str) -> None:
    lift = (
        f"  - {{kind: lift, date: 2025-03-01, movement: {movement}{side}, load: 90 kg, reps: 5, reps_in_reserve: 1}}\n"
    )
    (tmp_path / "nora.yaml").write_text(f"{ATHLETE}{lift}", "utf-8")
    sources = read_sources(Wanted(str(tmp_path / "nora.yaml")))
    estimate, _ = sources.estimate_and_problem()
    said = " ".join(gap_text(estimate, sources.inputs.athlete, full=True).split())
    assert f"{name}" in said
    assert movement not in said and movement.replace("-", " ") not in said


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("Back squat", "back squat"),
        ("Romanian deadlift, dumbbells", "Romanian deadlift, dumbbells"),
        ("Nordic curl", "Nordic curl"),
        ("45° back extension", "45° back extension"),
        ("RDL", "RDL"),
    ],
)
def test_a_name_inside_a_sentence(name: str, inside: str) -> None:
    one = next(iter(LIBRARY)).model_copy(update={"name": name})
    assert replace(LIBRARY, movements={one.id: one}).names_inside == {one.id: inside}
