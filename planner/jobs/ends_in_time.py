"""A target has a day: a block whose test comes after it says so, and which template would end in time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.domain.findings import Finding, UserError
from planner.files.load import load_template
from planner.files.locate import locate_template, template_names
from planner.jobs.sources import Sources
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem


def ends_in_time(sources: Sources, problem: Problem) -> list[Finding]:
    """A warning on the line of the target's day, or nothing where the test comes no later."""
    by = problem.athlete.target.by
    if by is None or problem.test_date <= by:
        return []
    message = f"the target is for {by}; this block ends with its test on {problem.test_date}"
    in_time = [name for name, other in _others(sources, problem) if other.test_date <= by]
    hint = f"with --template {' or '.join(in_time)} it ends in time" if in_time else "start earlier, or set a later day"
    return [sources.athlete.finding(("target", "by"), "after-the-target", message, hint, level="warning")]


def _others(sources: Sources, problem: Problem) -> Iterator[tuple[str, Problem]]:
    """The problems that this athlete would have with each other template that fits, from the same first day."""
    for name in template_names(near=sources.athlete.path):
        at = locate_template(name, sources.athlete.path)
        template = load_template(at.path, at.display).value
        if template is None or template.id == problem.template.id:
            continue
        try:
            yield name, estimate_and_problem(replace(sources.inputs, template=template), problem.start)[1]
        except UserError:  # it does not serve this athlete
            continue
