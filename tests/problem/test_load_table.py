"""The benchmarks' load-repetition table is the one that loads are made with: a coach's own numbers reach the bar."""

from __future__ import annotations

from dataclasses import replace

from planner.estimate.strength import chart_of
from planner.problem.from_files import estimate_and_problem
from planner.problem.loads import prescribe
from planner.problem.model import Problem
from tests.solve.demos import inputs, shipped_benchmarks

LOWER_percent = 6.0


def prescriptions(problem: Problem) -> dict[tuple[int, str], float | None]:
    return {
        (week, entry.movement.id): prescribe(problem, entry.movement, entry.dosage, week).load_kg
        for (week, _), entries in problem.entries.items()
        for entry in entries
    }


def test_a_lower_table_lightens_bars_and_never_loads_one():
    shipped = shipped_benchmarks()
    rows = tuple(
        row.model_copy(update={"percent": row.percent - LOWER_percent if row.reps > 1 else row.percent})
        for row in shipped.strength.load_repetitions
    )
    strength = shipped.strength.model_copy(update={"load_repetitions": rows})
    lower = shipped.model_copy(update={"strength": strength})
    assert chart_of(strength)[10] == chart_of(shipped.strength)[10] - LOWER_percent

    given = inputs("adult")
    usual = prescriptions(estimate_and_problem(given)[1])
    edited = prescriptions(estimate_and_problem(replace(given, benchmarks=lower))[1])
    both = [(load, edited[key]) for key, load in usual.items() if load is not None and edited[key] is not None]
    assert any(after < before for before, after in both)
    assert all(after <= before for before, after in both)
