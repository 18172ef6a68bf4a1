"""A block, its log and the athlete brought together: what was done, and what it says of the athlete."""

from __future__ import annotations

from pathlib import Path

from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.follow_up import FollowUp
from planner.domain.test_kinds import KindOfTest
from planner.domain.training_log import TrainingLog
from planner.estimate.trials import day_se_of, single_se_of
from planner.files.load import load_benchmarks, load_block, load_library, load_log
from planner.files.locate import shown
from planner.jobs.block_references import follow
from planner.jobs.carry_log import revised_since
from planner.jobs.changed_athlete import edited_by_hand
from planner.jobs.check_block import problem_of
from planner.jobs.check_log import against, log_path
from planner.jobs.follow_up_near import follow_up_near
from planner.past.done import done_sessions, last_day, not_logged
from planner.past.jump_days import jump_lines
from planner.past.lift_course import TestedMaximum, lift_courses
from planner.past.pain_course import pain_courses
from planner.problem.loads import own_maximum_kg
from planner.problem.model import Problem
from planner.problem.training_days import ONE_DAY
from planner.report.followed import Followed


def follow_block(block_path: str, log: str | None = None) -> Followed:
    """UserError where block, log or athlete have findings, or nothing is logged yet."""
    path = Path(block_path)
    at = Path(log) if log is not None else log_path(path)
    if not at.is_file():
        message = f"this block has no log at {shown(at)}"
        raise UserError([Finding(shown(path), 0, 0, "no-log", message, _how_to_begin(block_path))])
    read = load_block(path)
    block = read.require()
    problem, warnings = problem_of(block, read, path.parent)
    loaded = against(load_log(at, log or shown(at)), block, path.parent, load_library)
    kept = loaded.require()
    if last_day(kept, block) is None:
        message, hint = "nothing is logged yet", f"jumpblock log {block_path}"
        raise UserError([Finding(loaded.path, 0, 0, "empty-log", message, hint)])
    touch = load_benchmarks(follow(block.benchmarks.path, path.parent)).require().test_kinds["touch"]
    notes = [*revised_since(path), *edited_by_hand(read)]
    return followed(block, problem, kept, follow_up_near(path), touch, [*notes, *warnings, *loaded.findings])


def _how_to_begin(block_path: str) -> str:
    """The log so far of a block that was revised is that of the block before, for it to go on with."""
    revision = load_block(block_path).require().revision
    if revision is None or revision.log is None:
        return f"begin it with jumpblock log {block_path}"
    so_far = revision.log.path
    return f"what was logged before it was revised is in {so_far}: jumpblock revise again takes that log along"


def followed(
    block: Block, problem: Problem, kept: TrainingLog, rules: FollowUp, touch: KindOfTest, warnings: list[Finding]
) -> Followed:
    """A log with at least one entry, which fits its block. ``touch``: how far touches differ by chance."""
    done = done_sessions(block, kept, problem.library, problem.athlete.take_off)
    through = last_day(kept, block) or block.weeks[0].start
    return Followed(
        block=block,
        problem=problem,
        log=kept,
        rules=rules,
        done=done,
        through=through,
        lifts=lift_courses(
            done,
            tested_maxima(problem),
            problem.library,
            rules.lifts,
            body_kg=problem.athlete.body_mass,
            start=block.weeks[0].start,
            until=through,
        ),
        jumps=jump_lines(done, rules.jumps, day_error_m=day_se_of(touch), trial_error_m=single_se_of(touch)),
        pain=pain_courses(done, rules.pain),
        open_sessions=not_logged(block, kept, through + ONE_DAY),
        warnings=warnings,
    )


def tested_maxima(problem: Problem) -> dict[str, TestedMaximum]:
    """The maximum of each movement dosed by a percentage, as it was tested or derived from its reference lift."""
    own = {lift for lift, _ in problem.one_rm_kg}
    found = {}
    for movement in problem.library:
        best_kg = own_maximum_kg(problem, movement)
        if best_kg is not None:
            found[movement.id] = TestedMaximum(best_kg, movement.id in own)
    return found
