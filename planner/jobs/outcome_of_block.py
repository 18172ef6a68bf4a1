"""What came of a block: the tests before it against those on or after its test day, with its log."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from itertools import pairwise

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.findings import Finding, UserError
from planner.domain.follow_up import FollowUp
from planner.domain.outcome_rule import OutcomeRule
from planner.estimate.belief import Verdict, verdict_on
from planner.estimate.day_line import change_over
from planner.estimate.detectable_change import retest_of, worthwhile_m
from planner.estimate.estimate_gap import GapResult
from planner.estimate.heights import heights_of
from planner.estimate.lifts import Maxima, lift_maxima
from planner.estimate.notebook import Notebook
from planner.estimate.other_lifts import other_lifts
from planner.estimate.quality_readings import readings_of
from planner.estimate.retest_change import (
    NotCompared,
    QualityChange,
    Tested,
    change_between,
    quality_change,
    reading_step_m,
    strength_of,
    tested_after,
)
from planner.estimate.trials import mean_of_days
from planner.estimate.uncertainty import Estimate
from planner.estimate.what_next import row_of
from planner.files.load import load_block
from planner.jobs.sources import Sources
from planner.jobs.trained_block import Trained, last_test_day, trained_block
from planner.report.block_result import JumpDaysChange, Outcome
from planner.report.followed import Followed
from planner.rules.recount import count_week


def outcomes_of(paths: Sequence[str], athlete: str | None = None, log: str | None = None) -> list[Outcome]:
    """The outcome of each block, by date. UserError where files have findings or two tests cannot be compared."""
    blocks = sorted((load_block(path).require().weeks[0].start, path) for path in paths)
    for (_, path), (start, other) in pairwise(blocks):
        if start <= last_test_day(load_block(path).require()):
            message = f"{other} begins on {start}, before {path} has ended"
            raise UserError(
                [Finding(other, 0, 0, "blocks-overlap", message, "name each block once, one after the other")]
            )
    ends = [start for start, _ in blocks[1:]] + [datetime.date.max]
    found = [outcome_of(path, athlete, log, until=end) for (_, path), end in zip(blocks, ends, strict=True)]
    names = {one.athlete.name: path for one, (_, path) in zip(found, blocks, strict=True)}
    if len(names) > 1:
        message = f"these are blocks of different athletes: {', '.join(names)}"
        raise UserError([Finding(blocks[0][1], 0, 0, "other-athlete", message, "name the blocks of one athlete")])
    return found


def outcome_of(
    path: str, athlete: str | None = None, log: str | None = None, until: datetime.date = datetime.date.max
) -> Outcome:
    """``until``: the next block's first day; later tests are that block's."""
    return outcome_from(trained_block(path, athlete, log), until)


def outcome_from(trained: Trained, until: datetime.date = datetime.date.max) -> Outcome:
    """Likewise of a block that is read already."""
    block, sources, gap, told = trained.block, trained.sources, trained.gap, trained.told
    test_day, rules, rule = last_test_day(block), trained.rules, trained.outcome_rule
    last = min(until, test_day + datetime.timedelta(days=rule.retest_within_days))
    before, after = _before_and_after(trained, last)
    benchmarks = sources.benchmarks.require()
    jumped = Tested(gap.jumps.days)
    again = _tested_again(gap, after, sources, benchmarks, test_day)
    by_tests = change_between(jumped.rise_m, again.rise_m)
    by_days = _by_days(jumped, again, by_tests, told, benchmarks)
    share = min(1.0, len(block.weeks) / rule.whole_block_weeks)
    pooled = mean_of_days([by_tests, by_days.change_m]) if by_days and by_days.agrees else by_tests
    usual = Estimate(share * rule.jump.gain[after.level], rule.jump.spread)
    step_m = reading_step_m(jumped, again, benchmarks)
    verdict = verdict_on(pooled, usual, worthwhile_m(benchmarks.retest), rule, step_m)
    maxima = _maxima(after, sources)
    qualities = tuple(_qualities(gap, after, maxima, benchmarks, share, rule))
    strength = strength_of([one for one in qualities if isinstance(one, QualityChange)], rule)
    done, sore = _share_done(told), _sore(told, after, rules)
    return Outcome(
        block=block,
        athlete=after,
        test_day=test_day,
        before=jumped,
        after=again,
        touch_m=after.standing_reach + gap.jumps.heel_rise.value_m if gap.jumps.now_from_touch else None,
        by_tests_m=by_tests,
        by_days=by_days,
        verdict=verdict,
        qualities=qualities,
        strength=strength,
        other_lifts=other_lifts(_maxima(before, sources), maxima, qualities),
        retest=retest_of(again.heights, benchmarks.retest),
        followed=told,
        share_done=done,
        sore=sore,
        methods=tuple(dict.fromkeys([*_methods(before, jumped), *_methods(after, again)])),
        row=row_of(
            strength_up=strength is not None and strength.worked,
            jump_up=verdict.worked,
            share_done=done,
            least_done=rule.least_done,
            sore=bool(sore),
        ),
        rule=rule,
        warnings=trained.warnings,
    )


def _maxima(athlete: Athlete, sources: Sources) -> Maxima:
    names = sources.inputs.library.names_inside
    return lift_maxima(athlete, sources.benchmarks.require(), Notebook(), names=names)


def usual_gain(outcomes: Sequence[Outcome]) -> Verdict:
    """The athlete's gain of a block as a mean over blocks, by tests alone, in metres, weighed with the usual gain.

    A test between two blocks is the end of one and the beginning of the next: there it drops out of the error.
    """
    count, parts = len(outcomes), dict[tuple[datetime.date, ...], tuple[float, float]]()
    for one in outcomes:
        for sign, tested in ((-1.0, one.before), (1.0, one.after)):
            parts[tested.dates] = (parts.get(tested.dates, (0.0, 0.0))[0] + sign, tested.rise_m.se)
    error = sum((sign * se) ** 2 for sign, se in parts.values()) ** 0.5 / count
    seen = Estimate(sum(one.by_tests_m.value for one in outcomes) / count, error)
    usual = Estimate(sum(one.verdict.usual.value for one in outcomes) / count, outcomes[0].verdict.usual.se)
    return verdict_on(seen, usual, outcomes[0].verdict.worth, outcomes[0].rule)


def _before_and_after(trained: Trained, last: datetime.date) -> tuple[Athlete, Athlete]:
    """The athlete with the tests up to the block's first day, and with the retest."""
    sources, block = trained.sources, trained.block
    athlete, start, test_day = sources.athlete.require(), block.weeks[0].start, last_test_day(block)
    later = tuple(test for test in athlete.tests if test_day <= test.date <= last)
    if not trained.tested_before:
        message, hint = f"no test up to {start}, when the block began", "old tests stay in the athlete's file"
        raise UserError([sources.athlete.finding(("tests",), "no-test-before", message, hint)])
    if not later:
        message = f"no test from the block's test day on ({test_day} to {last})"
        hint = "add the retest to the athlete's file, below the old tests"
        raise UserError([sources.athlete.finding(("tests",), "no-retest", message, hint)])
    return trained.athlete, athlete.model_copy(update={"tests": later})


def _tested_again(
    gap: GapResult, after: Athlete, sources: Sources, benchmarks: Benchmarks, test_day: datetime.date
) -> Tested:
    counts = gap.jumps.height
    heights = heights_of(after, gap.jumps.heel_rise, benchmarks, Notebook())
    found = tested_after(counts, heights, benchmarks)
    if found is not None:
        return found
    other = [one for one in heights if (one.take_off, one.form) == (counts.take_off, counts.form)]
    if other:
        message = f"two methods are two heights: {counts.described()} before, {other[-1].described()} after"
        code = "other-method"
    else:
        message, code = f"the target jump was not tested again from {test_day} on", "no-retest"
    hint = f"repeat the test of before: {counts.as_done()}"
    raise UserError([sources.athlete.finding(("tests",), code, message, hint)])


def _methods(athlete: Athlete, tested: Tested) -> list[str]:
    told = [athlete.tests[one.number].method for one in tested.heights]
    return [method for method in told if method is not None]


def _by_days(
    before: Tested, after: Tested, by_tests: Estimate, told: Followed | None, benchmarks: Benchmarks
) -> JumpDaysChange | None:
    """The target jump's touches in the log; none where it was tested by another method than a touch."""
    if told is None or before.heights[0].method != "touch":
        return None
    span = after.middle_day - before.middle_day
    lines = [line for line in told.target_jumps if len({day.date for day in line.days}) > 1]
    if not lines:
        return None
    changes = [
        change_over(
            [float(day.date.toordinal()) for day in line.days],
            [Estimate(day.middle_m, day.spread_m) for day in line.days],
            span,
        )
        for line in lines
    ]
    change = mean_of_days(changes)
    apart = change_between(change, by_tests)
    days = [day for line in lines for day in line.days]
    agrees = abs(apart.value) <= benchmarks.retest.together_errors * apart.se
    return JumpDaysChange(change, len(days), sum(day.jumps for day in days), agrees)


def _qualities(
    gap: GapResult, after: Athlete, maxima: Maxima, benchmarks: Benchmarks, share: float, rule: OutcomeRule
) -> list[QualityChange | NotCompared]:
    found: list[QualityChange | NotCompared] = []
    for quality, result in gap.qualities.items():
        if not result.tested:
            found.append(NotCompared(quality, "not tested before"))
        for judged in result.counted:
            before = judged.reading
            readings = readings_of(before.test, after, maxima, benchmarks, Notebook())
            found.append(quality_change(quality, before, readings, share, rule))
    return found


def _share_done(told: Followed | None) -> float | None:
    """Of the whole block, the lower of sets and contacts; sessions without an entry count as not done."""
    if told is None:
        return None
    planned = [count_week(week, told.problem) for week in told.block.weeks]
    done = [one.done for one in told.weeks]
    sums = [
        (sum(one.working_sets for one in done), sum(one.working_sets for one in planned)),
        (sum(one.contacts for one in done), sum(one.contacts for one in planned)),
    ]
    return min((real / asked for real, asked in sums if asked), default=None)


def _sore(told: Followed | None, athlete: Athlete, rules: FollowUp) -> tuple[str, ...]:
    """Joints that are not green at the end of the log, or hurt by the athlete's file."""
    found = [] if told is None else [(one.side, one.joint) for one in told.pain if one.state != "green"]
    found += [(one.side, one.joint) for one in athlete.joints if one.pain > rules.pain.green_up_to]
    return tuple(dict.fromkeys(" ".join(filter(None, where)) for where in found))
