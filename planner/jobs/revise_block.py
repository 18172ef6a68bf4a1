"""The rest of a running block becomes a new block: what was done stays, the rest changes as little as it can."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.block_parts import PACKAGED_PREFIX, Reference
from planner.domain.findings import Finding, UserError
from planner.domain.template import Template
from planner.domain.template_prices import RevisePrices
from planner.domain.terms import Day
from planner.files.digest import is_as_solved
from planner.jobs.block_references import reference
from planner.jobs.check_block import refuse_misfits, sources_of
from planner.jobs.plan_block import Progress, Tell, conflict_of
from planner.jobs.running_block import (
    Running,
    first_day_of,
    lost_to_come,
    maxima_told,
    read_running,
    revision_of,
    unlogged,
)
from planner.jobs.sources import Sources
from planner.problem.by_hand import all_edits, by_edits
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.problem.not_plannable import refuse_logged_pain
from planner.problem.revised import since_of
from planner.rules.figure_words import counted, listed
from planner.solve.budgets import DEFAULT_BUDGET
from planner.solve.fewest_changes import WantedRest
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.make_block import References, make_block, refuse_broken
from planner.solve.past import days_moved, with_past
from planner.solve.reasons import Change, broken_rules, changes_with_reasons
from planner.solve.rest_of_block import TooManyCards, same_sets, solve_rest
from planner.solve.stages import Solution


@dataclass(frozen=True)
class Revised:
    """The block in use, the revised one, what is other in it and why, and weekdays that became others."""

    old: Block
    new: Block
    changes: list[Change]
    moved: dict[Day, Day]


def revise_block(
    path: Path,
    folder: Path,
    *,
    first_day: datetime.date | None = None,
    athlete: Path | None = None,
    loads_only: bool = False,
    most_cards: int | None = None,
    budget: float | None = None,
    tell: Tell = lambda findings: None,
    progress: Progress = lambda text: None,
) -> Revised:
    """The block at ``path`` with its rest planned anew, to be kept in ``folder``.

    ``first_day``: from when on, by default the day after the last entry of its log. ``athlete``: the athlete's file,
    by default the block's own as it is now. ``loads_only``: movements and sets stay, loads follow the athlete's file.
    ``most_cards``: the most cards to print again for other movements or sets. ``tell`` gets what is to be known before
    the search begins. Raises UserError where the files, the day or the rules say no.
    """
    running = read_running(path)
    block = running.block
    day = first_day_of(running, first_day)
    sources, warned = sources_of(block, running.loaded, path.parent, athlete=athlete)
    tell([*_edited(running), *(one for one in warned if one.code != "changed-athlete"), *unlogged(running, day)])
    tell(lost_to_come(running, day, sources.inputs.athlete))
    prices = _prices(sources)
    known = sources.inputs
    revision = revision_of(running, day, known.library, known.athlete, folder)
    told_in = running.log or running.loaded
    refuse_logged_pain(revision.pain, known.template, told_in.path, "log how it is (--pain) with the next session")
    told = block.model_copy(update={"revision": revision, "edits": all_edits(block)})
    _refuse_long_absence(running, told, known.template)
    estimate, problem = sources.estimate_and_problem(
        block.weeks[0].start, since_of(told), by_edits(told, told.edits), block.before
    )
    refuse_misfits(block, running.loaded, problem)
    maxima = maxima_told(running, day, problem)
    told = told.model_copy(update={"revision": revision.model_copy(update={"maxima": maxima})})
    problem = with_past(replace(problem, gained=maxima), told)
    if loads_only:
        solution = same_sets(problem, told)
        if solution is None:
            raise UserError([_sets_must_change(running, problem, told)])
    else:
        wanted = WantedRest(told, prices, most_cards)
        solution = _solve(problem, wanted, sources, budget or DEFAULT_BUDGET, progress)
    new = make_block(solution, estimate.gap, _references(block, sources, folder), told, told.revision)
    refuse_broken(new, solution.problem)  # before anything is written
    changes = changes_with_reasons(solution.problem, told, solution.values)
    return Revised(block, new, changes, days_moved(solution.problem, told))


def _refuse_long_absence(running: Running, told: Block, template: Template) -> None:
    since, limits = since_of(told), template.coming_back
    if since is None or limits is None or since.days_lost <= limits.most_days:
        return
    message = f"{since.days_lost} days were lost: after more than {limits.most_days} the rest is no longer this block"
    hint = "plan a new one: jumpblock plan --start; begin it at about half of what was done before"
    raise UserError([Finding(running.loaded.path, 0, 0, "too-long-away", message, hint)])


def _edited(running: Running) -> list[Finding]:
    if is_as_solved(running.block):
        return []
    message = "the block was edited by hand; its rest is planned from what it says now"
    return [running.loaded.finding(("plan_sha256",), "edited-block", message, level="warning")]


def _prices(sources: Sources) -> RevisePrices:
    prices = sources.inputs.template.revise
    if prices is None:
        message = "this template's limits do not set the cost of changing a running block"
        hint = "add the section 'revise' of the shipped limits: jumpblock start makes a folder with it"
        raise UserError([Finding(sources.template.path, 0, 0, "no-prices", message, hint)])
    return prices


def _sets_must_change(running: Running, problem: Problem, block: Block) -> Finding:
    broken = broken_rules(problem, block)
    message = f"with its movements and sets unchanged, the rest breaks {listed(repr(title) for title in broken)}"
    return Finding(running.loaded.path, 0, 0, "sets-must-change", message, "revise without --loads-only")


def _solve(problem: Problem, wanted: WantedRest, sources: Sources, budget: float, progress: Progress) -> Solution:
    try:
        return solve_rest(problem, wanted, budget, progress)
    except TooManyCards:
        cards = counted(wanted.most_cards or 0, "card")
        message = f"with at most {cards} to print again, no plan for the rest keeps every rule"
        hint = "allow more with --most-cards, or leave it out"
        raise UserError([Finding(sources.athlete.path, 0, 0, "too-few-cards", message, hint)]) from None
    except NoBlock as no_block:
        progress("no rest of the block keeps every rule; looking for the rules that conflict")
        raise UserError(
            conflict_of(no_block, sources, _rebuild(sources, wanted.block, no_block.problem.past_gives))
        ) from no_block
    except BudgetSpent as spent:
        message = f"the search ran out of its budget of {budget:g}: it found no rest of the block"
        raise UserError(
            [Finding(sources.athlete.path, 0, 0, "budget-spent", message, "raise it with --budget")]
        ) from spent


def _rebuild(sources: Sources, block: Block, past_gives: bool) -> Callable[[Athlete], Problem]:
    """Makes the Problem of the same rest with some lines of the athlete's file changed."""

    def rebuild(athlete: Athlete) -> Problem:
        inputs = replace(sources.inputs, athlete=athlete)
        since, by_hand = since_of(block), by_edits(block, block.edits)
        start, before = block.weeks[0].start, block.before
        problem = estimate_and_problem(inputs, start, since=since, by_hand=by_hand, before=before)[1]
        return replace(with_past(problem, block), past_gives=past_gives)

    return rebuild


def _references(block: Block, sources: Sources, folder: Path) -> References:
    """Where the four files are; what came with the package for the old block does so for the new one."""
    found: dict[str, Reference] = {}
    for name, at in sources.at._asdict().items():
        old, sha256 = getattr(block, name), getattr(sources, name).sha256
        packaged = old.path.startswith(PACKAGED_PREFIX) and name != "athlete"
        found[name] = Reference(path=old.path, sha256=sha256) if packaged else reference(at, sha256, folder)
    return References(**found)
