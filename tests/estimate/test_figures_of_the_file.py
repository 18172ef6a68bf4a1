"""Benchmark figures that a coach may argue with: another number in the file gives another sentence."""

from __future__ import annotations

from typing import Any

from planner.domain.benchmarks import Benchmarks
from planner.estimate.estimate_gap import GapResult, estimate_gap
from tests.estimate.people import jumper, jumper_with, shipped_benchmarks

SPLITS = {"kind": "sprint-splits", "distances": ["20 m", "30 m"], "trials": [["3 s", "4.0 s"]]}  # 10 m/s
TAKE_OFF = [
    {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"]},
    {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]},
]


def changed(section: str, **figures: Any) -> Benchmarks:
    benchmarks = shipped_benchmarks()
    return benchmarks.model_copy(update={section: getattr(benchmarks, section).model_copy(update=figures)})


def story(benchmarks: Benchmarks) -> str:
    return " ".join(estimate_gap(jumper(), benchmarks).gap.story)


def test_how_sure_a_test_reads_is_the_file_s() -> None:
    assert "moderate confidence" in story(shipped_benchmarks())
    assert "good confidence" in story(changed("confidence", fairly_sure_from=0.4))
    assert "low confidence" in story(changed("confidence", half_sure_from=0.9, fairly_sure_from=0.95))


def test_a_lift_that_was_not_tested_is_advised_with_the_file_s_repetitions() -> None:
    def advised(benchmarks: Benchmarks) -> str:
        return " ".join(estimate_gap(jumper(TAKE_OFF), benchmarks).useful_tests)

    assert " × 8 would" in advised(shipped_benchmarks())
    assert " × 5 would" in advised(changed("strength", hint_reps=5))


def test_a_sprint_is_believed_up_to_the_file_s_speed() -> None:
    def readings(most_m_s: float) -> GapResult:
        benchmarks = shipped_benchmarks()
        kind = benchmarks.test_kinds["sprint-splits"].model_copy(update={"refuse_speed_over_m_s": most_m_s})
        kinds = {**benchmarks.test_kinds, "sprint-splits": kind}
        return estimate_gap(jumper_with(SPLITS), benchmarks.model_copy(update={"test_kinds": kinds}))

    codes = [{finding.code for finding in readings(most).findings} for most in (10.5, 9.5)]
    assert ["sprint-not-believed" in found for found in codes] == [False, True]
