"""Which of several tests counts when they tie, and how two tests of one quality weigh."""

from __future__ import annotations

import datetime
import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.estimate.contact import measured_contact
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.notebook import Notebook
from planner.estimate.qualities import _combine
from tests.estimate.people import jumper, jumper_with

CONTACT = {"kind": "contact-time", "take_off": "one-leg left"}
MAT = {"kind": "contact-mat", "take_off": "one-leg left", "run_up": True}
TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"]}


@pytest.mark.parametrize(
    ("tests", "time_s"),
    [
        ([{**CONTACT, "trials": ["0.20 s"]}, {**CONTACT, "trials": ["0.18 s"]}], 0.18),
        ([{**CONTACT, "trials": ["0.18 s"]}, {**CONTACT, "trials": ["0.20 s"]}], 0.20),
        ([{**CONTACT, "trials": ["0.20 s"]}, {**MAT, "trials": [{"flight": "0.5 s", "contact": "0.19 s"}]}], 0.19),
        ([{**MAT, "trials": [{"flight": "0.5 s", "contact": "0.19 s"}]}, {**CONTACT, "trials": ["0.20 s"]}], 0.20),
    ],
)
def test_of_two_contacts_of_one_day_the_later_line_counts(
    benchmarks: Any, tests: list[dict[str, Any]], time_s: float
) -> None:
    found = measured_contact(jumper([TOUCH, *tests]), benchmarks, Notebook())
    assert found is not None and found.time_s.value == pytest.approx(time_s)


def test_a_later_day_counts_wherever_it_is_written(benchmarks: Any) -> None:
    tests = [{**CONTACT, "date": datetime.date(2025, 3, 1), "trials": ["0.18 s"]}, {**CONTACT, "trials": ["0.20 s"]}]
    found = measured_contact(jumper_with(*tests), benchmarks, Notebook())
    assert found is not None and found.time_s.value == pytest.approx(0.18)


def test_a_contact_of_another_take_off_or_from_a_stand_is_no_contact_of_the_target(benchmarks: Any) -> None:
    other = [{**CONTACT, "take_off": "one-leg right", "trials": ["0.18 s"]}]
    standing = [{**MAT, "run_up": False, "trials": [{"flight": "0.5 s", "contact": "0.19 s"}]}]
    no_contact = [{**MAT, "trials": [{"flight": "0.5 s"}]}]
    for tests in (other, standing, no_contact):
        assert measured_contact(jumper([TOUCH, *tests]), benchmarks, Notebook()) is None


def _judged(confidence: float, deficit: float, test_se: float, need_se: float, relative_se: float) -> Any:
    return SimpleNamespace(
        confidence=confidence,
        deficit=deficit,
        test_part_se=test_se,
        need_part_se=need_se,
        relative_se=relative_se,
    )


def test_two_tests_weigh_by_confidence_and_the_error_of_their_need_does_not_average_out() -> None:
    """Confidences 0.6 and 0.2: three quarters and one quarter; the need is the same, so its errors add."""
    one, other = _judged(0.6, 0.10, 0.04, 0.02, 0.1), _judged(0.2, 0.30, 0.08, 0.06, 0.2)
    deficit, deficit_se, sure = _combine([one, other], scatter=0.1)
    assert deficit == pytest.approx(0.75 * 0.10 + 0.25 * 0.30)
    tests = math.hypot(0.75 * 0.04, 0.25 * 0.08)
    needs = 0.75 * 0.02 + 0.25 * 0.06
    assert deficit_se == pytest.approx(math.hypot(tests, needs))
    alone = _combine([one], scatter=0.1)
    assert alone[:2] == pytest.approx((0.10, math.hypot(0.04, 0.02)))
    both = math.hypot(0.75 * 0.1, 0.25 * 0.2)
    assert sure == pytest.approx(_combine([_judged(1.0, 0.0, 0.0, 0.0, both)], scatter=0.1)[2])
    assert _combine([], scatter=0.1) == (0.0, 0.0, 0.0)


def test_the_latest_of_two_heel_raises_counts_for_each_leg(benchmarks: Any) -> None:
    raises = {"kind": "heel-raise", "form": "strict", "protocol": "own rhythm"}
    later = jumper_with({**raises, "left": 30}, {**raises, "left": 31, "date": datetime.date(2025, 1, 20), "right": 20})
    lines = [line for line in estimate_gap(later, benchmarks).gap.qualities if line.quality == "calf-ankle"]
    assert {line.side: line.have for line in lines} == {"left": 30, "right": 20}


def test_a_contact_says_how_it_was_measured_and_how_often(benchmarks: Any) -> None:
    said = [
        measured_contact(jumper([TOUCH, {**CONTACT, **more}]), benchmarks, Notebook())
        for more in ({"trials": ["0.20 s"]}, {"trials": ["0.20 s", "0.21 s"], "method": "film"})
    ]
    assert [one and one.described.split(" (")[0] for one in said] == ["measured, one trial", "film, mean of 2"]
