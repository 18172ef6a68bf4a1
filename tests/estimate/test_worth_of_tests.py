"""What more testing is worth, worked by hand from the errors of a day and a trial."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.estimate.test_worth import deficit_se, worth_of_tests
from planner.problem.from_files import estimate_from
from planner.report.test_worth_text import worth_lines
from tests.solve.demos import inputs


@pytest.fixture(scope="module")
def found():
    return estimate_from(inputs("adult"))


def jump_of(found):
    (jump,) = [one for one in found.qualities["speed-exposure"].counted if one.reading.test.kind == "drop-jump"]
    return jump, found.benchmarks.test_kinds["drop-jump"]


def test_days_and_trials_leave_the_error_of_curve_and_target(found) -> None:
    jump, kind = jump_of(found)
    one = deficit_se(jump, kind, 1, 1)
    usual = jump.reading.usual_se / jump.reading.have
    day, single = kind.error.day_error, kind.error.typical_error
    share = math.sqrt((day**2 + single**2 / 3) / 2 / (day**2 + single**2))  # two days of three trials
    curve = jump.reading.test.standard_error**2 - usual**2
    scale = jump.test_part_se / jump.relative_se
    by_hand = math.hypot(scale * math.sqrt(curve + (share * usual) ** 2), jump.need_part_se)
    assert deficit_se(jump, kind, 2, 3) == pytest.approx(by_hand, rel=0.01)  # the step of the scale adds a little
    assert deficit_se(jump, kind, 3, 5) < by_hand < one


def test_what_no_day_settles_is_said_with_what_stays(found) -> None:
    (worth,) = [one for one in worth_of_tests(found.qualities, found.benchmarks) if one.judged is jump_of(found)[0]]
    assert worth.days == worth.minutes == 0 and 0 < worth.least_se < worth.judged.deficit_se
    assert any("drop jump" in line and "no number of test days makes that sure" in line for line in worth_lines(found))


def test_the_cheapest_way_is_named_and_goes_first(found) -> None:
    """A deficit twice what three days of five leave, and not twice what one trial does: fewer days may do as well."""
    jump, kind = jump_of(found)
    deficit = 2.0 * deficit_se(jump, kind, 2, 1) + 1e-9
    assert deficit <= 2.0 * deficit_se(jump, kind, 1, 1)
    sure = replace(jump, deficit=deficit)
    qualities = {**found.qualities, "speed-exposure": replace(found.qualities["speed-exposure"], counted=(sure,))}
    first, *others = worth_of_tests(qualities, found.benchmarks)
    time = found.benchmarks.retest.time
    enough = [
        time.minutes(days, trials)
        for days in (1, 2, 3)
        for trials in range(1, 6)
        if deficit > 2.0 * deficit_se(sure, kind, days, trials)
    ]
    assert first.judged is sure and first.minutes == min(enough) == time.minutes(first.days, first.trials)
    assert all(one.days == 0 or one.minutes >= first.minutes for one in others)


def test_without_the_time_of_testing_nothing_is_said(found) -> None:
    older = found.benchmarks.model_copy(update={"retest": found.benchmarks.retest.model_copy(update={"time": None})})
    assert worth_of_tests(found.qualities, older) == []
