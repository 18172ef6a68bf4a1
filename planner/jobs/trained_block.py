"""A block that was trained: its files, the athlete as it began, and what its log tells."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace
from pathlib import Path

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.follow_up import FollowUp
from planner.domain.next_block_rule import NextBlockRule
from planner.domain.outcome_rule import OutcomeRule
from planner.estimate.estimate_gap import GapResult
from planner.files.document import Loaded
from planner.files.load import load_block, load_library, load_log
from planner.jobs.changed_athlete import edited_by_hand
from planner.jobs.check_block import refuse_misfits, sources_of
from planner.jobs.check_log import against, log_path
from planner.jobs.follow_block import followed
from planner.jobs.follow_up_near import follow_up_near, shipped_follow_up
from planner.jobs.placing import placed
from planner.jobs.sources import Sources
from planner.past.done import last_day
from planner.problem.by_hand import by_hand_of
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.problem.revised import since_of
from planner.report.followed import Followed


@dataclass(frozen=True)
class Trained:
    """``athlete``: with the tests up to the block's first day and the mass of then; ``tested_before``: whether any are.

    ``gap``, ``problem``: of that athlete. ``told``: None without a log, or with an empty one.
    """

    path: Path
    loaded: Loaded[Block]
    sources: Sources
    athlete: Athlete
    tested_before: bool
    gap: GapResult
    problem: Problem
    told: Followed | None
    log_sha256: str | None
    rules: FollowUp
    outcome_rule: OutcomeRule
    next_rule: NextBlockRule
    warnings: tuple[Finding, ...]

    @property
    def block(self) -> Block:
        return self.loaded.require()


def trained_block(path: str, athlete: str | None = None, log: str | None = None) -> Trained:
    """``athlete``, ``log``: by default the block's own. UserError where one of the files has findings."""
    loaded = load_block(path)
    block, folder = loaded.require(), Path(path).parent
    sources, warnings = sources_of(block, loaded, folder, load_library, None if athlete is None else Path(athlete))
    sources.require()
    warnings = [one for one in warnings if one.code != "changed-athlete"]  # a retest changes it
    rules, outcome_rule, next_rule = _rules(path)
    then, tested_before = _as_it_began(sources.athlete.require(), block)
    gap, problem = _estimated(sources, then, block)
    refuse_misfits(block, loaded, problem)
    told, log_sha256 = _from_the_log(path, log, block, problem, rules, sources)
    return Trained(
        path=Path(path),
        loaded=loaded,
        sources=sources,
        athlete=then,
        tested_before=tested_before,
        gap=gap,
        problem=problem,
        told=told,
        log_sha256=log_sha256,
        rules=rules,
        outcome_rule=outcome_rule,
        next_rule=next_rule,
        warnings=(*edited_by_hand(loaded), *warnings),
    )


def last_test_day(block: Block) -> datetime.date:
    """The day of the block's closing test, else of its last session."""
    tests = [session.date for session in block.sessions if any(item.part == "test" for item in session.items)]
    return max(tests or [session.date for session in block.sessions])


def _rules(path: str) -> tuple[FollowUp, OutcomeRule, NextBlockRule]:
    """The coach's follow-up file; the packaged figures where an older one has none of these."""
    rules, shipped = follow_up_near(path), shipped_follow_up()
    outcome, following = rules.outcome or shipped.outcome, rules.next_block or shipped.next_block
    assert outcome is not None and following is not None  # the packaged file has both
    return rules, outcome, following


def _as_it_began(athlete: Athlete, block: Block) -> tuple[Athlete, bool]:
    """Without joints: the pain in the file is of today, not of the day it began."""
    earlier = tuple(test for test in athlete.tests if test.date <= block.weeks[0].start)
    update = {"tests": earlier or athlete.tests, "body_mass": block.gap.body_mass_kg, "joints": ()}
    return athlete.model_copy(update=update), bool(earlier)


def _estimated(sources: Sources, athlete: Athlete, block: Block) -> tuple[GapResult, Problem]:
    inputs, start, by_hand = replace(sources.inputs, athlete=athlete), block.weeks[0].start, by_hand_of(block)
    try:
        return estimate_and_problem(inputs, start, since=since_of(block), by_hand=by_hand, before=block.before)
    except UserError as error:
        raise UserError(placed(error.findings, sources.athlete)) from error


def _from_the_log(
    path: str, log: str | None, block: Block, problem: Problem, rules: FollowUp, sources: Sources
) -> tuple[Followed | None, str | None]:
    """What the log tells, and its digest."""
    at = Path(log) if log is not None else log_path(path)
    if log is None and not at.is_file():
        return None, None
    loaded = against(load_log(at), block, Path(path).parent, load_library)
    kept = loaded.require()
    if last_day(kept, block) is None:
        return None, None
    touch = sources.benchmarks.require().test_kinds["touch"]
    return followed(block, problem, kept, rules, touch, []), loaded.sha256
