"""The four files of an athlete become a block, or a refusal that says what would help."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.block_before import BlockBefore
from planner.domain.findings import Finding, UserError
from planner.jobs.block_references import reference
from planner.jobs.closing_test import closing_test
from planner.jobs.left_out import left_out_of_plan, left_out_of_tests, tells_no_quality
from planner.jobs.placing import locator, placed
from planner.jobs.sources import Sources
from planner.problem.from_files import estimate_and_problem
from planner.problem.high_tier import ANCHOR, GATE, closed_words
from planner.problem.model import Problem
from planner.report.conflict_text import conflict_findings, steps_in_words
from planner.rules.figure_words import listed
from planner.solve.budgets import DEFAULT_BUDGET
from planner.solve.conflict import find_conflict
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.from_block import off_routine
from planner.solve.loosened_rows import Rebuild
from planner.solve.make_block import References, make_block, refuse_broken
from planner.solve.near import solve_near
from planner.solve.repair import minutes_that_do
from planner.solve.stages import Solution, solve

Tell = Callable[[list[Finding]], None]
Progress = Callable[[str], None]


def plan_block(
    sources: Sources,
    folder: Path,
    *,
    start: datetime.date | None = None,
    near: Block | None = None,
    before: BlockBefore | None = None,
    budget: float | None = None,
    tell: Tell = lambda findings: None,
    progress: Progress = lambda text: None,
) -> Block:
    """A block to be kept in ``folder``, as close as possible to ``near`` where that is given, and after ``before``.

    ``tell`` gets the warnings of the files and the estimate before the search begins, ``progress`` the search's steps.
    ``budget`` is in the solver's deterministic seconds. Raises UserError where there is no block or none was found.
    """
    estimate, problem = sources.estimate_and_problem(start, before=before)
    tell([*sources.findings, *placed(estimate.findings, sources.athlete), *_left_out(near, problem)])
    no_quality = tells_no_quality(sources.athlete, problem.library, sources.inputs.benchmarks)
    tell([*left_out_of_tests(sources.athlete), *no_quality, *left_out_of_plan(sources.athlete, problem.library)])
    tell([*closing_test(sources, problem), *closed_jumps(sources, problem)])
    solution = _solve(problem, sources, _rebuild(sources, start, before), near, budget or DEFAULT_BUDGET, progress)
    block = make_block(solution, estimate.gap, references_of(sources, folder))
    refuse_broken(block, solution.problem)  # before anything is written
    return block


def closed_jumps(sources: Sources, problem: Problem) -> list[Finding]:
    """What the gate closes, on the line of the squat's test or of the landings."""
    closed = closed_words(problem.gate, problem.athlete)
    if closed is None:
        return []
    lift, tests = ANCHOR[0], problem.athlete.tests
    squats = [number for number, test in enumerate(tests) if getattr(test, "movement", None) == lift]
    at: tuple[str | int, ...] = ("landing",) if not problem.gate.lands else ("tests", *squats[-1:])
    hint = _opened_by(problem) if problem.gate.lands else ""
    return [sources.athlete.finding(at, "closed-jumps", closed.rstrip("."), hint, level="note")]


def _opened_by(problem: Problem) -> str:
    """The lines of the athlete's file that open what the gate closes, as they are written."""
    line = f"allow: [{{rule: {GATE}, reason: why, date: {problem.start}}}]"
    hint = f"a coach who knows the athlete may write {line}"
    enough = problem.template.gates.own_jump_recent_contacts
    if problem.gate.own_jump_open or not problem.athlete.approach.steps or enough is None:
        return hint
    usual = "where the usual week already holds the jump off the run-up, say so and it stays open"
    return f"{hint}; {usual}: weekly_high_contacts in recent_load, {enough:g} or more"


def _left_out(near: Block | None, problem: Problem) -> list[Finding]:
    """Sessions of the block in use that the new one has no day for: they count as changed."""
    lost = [] if near is None else off_routine(near, problem)
    if not lost:
        return []
    named = listed([f"{session.id} ({session.date:%a})" for session in lost])
    message = f"the new block has no session in place of: {named}"
    return [Finding("", 0, 0, "other-days", message, "their work is planned anew", level="note")]


def _solve(
    problem: Problem,
    sources: Sources,
    rebuild: Rebuild,
    near: Block | None,
    budget: float,
    progress: Progress,
) -> Solution:
    try:
        return solve(problem, budget, progress) if near is None else solve_near(problem, near, budget, progress)
    except NoBlock as no_block:
        progress("no block keeps every rule; looking for the rules that conflict")
        raise UserError(conflict_of(no_block, sources, rebuild)) from no_block
    except BudgetSpent as spent:
        progress("no block was found; looking for minutes that would do")
        message = f"the search ran out of its budget of {budget:g}: it found no block, and no proof that there is none"
        what_to_do = f"raise it with --budget{_more_minutes(problem, rebuild)}"
        raise UserError([Finding(sources.athlete.path, 0, 0, "budget-spent", message, what_to_do)]) from spent


def _more_minutes(problem: Problem, rebuild: Rebuild) -> str:
    """The minutes that give a block, where a few more are enough; else nothing."""
    change = minutes_that_do(problem, rebuild)
    return f"; one change that would do: {steps_in_words(change.steps, problem)}" if change else ""


def conflict_of(no_block: NoBlock, sources: Sources, rebuild: Rebuild) -> list[Finding]:
    """The rules that cannot hold together and the cheapest change, on the lines of the athlete's file."""
    problem = no_block.problem
    conflict = find_conflict(problem, no_block.rows, rebuild, no_block.core)
    found = conflict_findings(conflict, problem, sources.athlete.path, locator(sources.athlete))
    return placed(found, sources.athlete)


def _rebuild(sources: Sources, start: datetime.date | None, before: BlockBefore | None) -> Rebuild:
    """Makes the Problem of the same files with some lines of the athlete's file changed.

    ``start``: as the coach gave it. Without one, another training day may move the block's first day.
    """

    def rebuild(athlete: Athlete) -> Problem:
        return estimate_and_problem(replace(sources.inputs, athlete=athlete), start, before=before)[1]

    return rebuild


def references_of(sources: Sources, folder: Path) -> References:
    """Where the four files are, seen from the block's folder."""
    found = sources.at._asdict().items()
    return References(**{name: reference(at, getattr(sources, name).sha256, folder) for name, at in found})
