"""The test that closes a block: after the target's day, or kept short by the minutes of its own day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.domain.findings import Finding, UserError
from planner.files.locate import locate_template, template_names
from planner.jobs.sources import Sources
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.problem.retest import least_test_seconds
from planner.rules.own_limits import load_template


def closing_test(sources: Sources, problem: Problem) -> list[Finding]:
    """What to know on the lines of the target's day and of the test's weekday, each only where it has a reason."""
    return [*_too_late(sources, problem), *_kept_short(sources, problem)]


def _too_late(sources: Sources, problem: Problem) -> list[Finding]:
    by = problem.athlete.target.by
    if by is None or problem.test_date <= by:
        return []
    message = f"the target is for {by}; this block ends with its test on {problem.test_date}"
    in_time = [name for name, other in _others(sources, problem) if other.test_date <= by]
    hint = f"--template {' or '.join(in_time)} would end in time" if in_time else "start earlier, or set a later day"
    return [sources.athlete.finding(("target", "by"), "after-the-target", message, hint, level="warning")]


def _kept_short(sources: Sources, problem: Problem) -> list[Finding]:
    usual, least_s = problem.template.test_day.minutes, least_test_seconds(problem.template)
    slot = next(slot for slot in problem.slots if slot.number == problem.test_slot)
    if not least_s <= 60 * slot.gym_minutes < 60 * usual:  # with less there is no block
        return []
    days = [day.day for day in problem.athlete.training.days]
    message = f"the test on {problem.test_date} has the day's {slot.gym_minutes} min instead of {usual}"
    hint = "warm-up and jumps fit in; take the strength tests on another day, or give that day more time"
    at = ("training", "days", days.index(slot.day), "minutes")
    return [sources.athlete.finding(at, "test-day-short", message, hint, level="note")]


def _others(sources: Sources, problem: Problem) -> Iterator[tuple[str, Problem]]:
    """The problems that this athlete would have with each other template that fits, from the same first day."""
    for name in template_names(near=sources.athlete.path):
        at = locate_template(name, sources.athlete.path)
        template = load_template(at.path, at.display).value
        if template is None or template.id == problem.template.id:
            continue
        inputs = replace(sources.inputs, template=template)
        try:
            yield name, estimate_and_problem(inputs, problem.start, before=problem.before)[1]
        except UserError:  # it does not serve this athlete
            continue
