"""What a new block takes over from the one before: load, maxima, movements and pain, and what its outcome asks for."""

from __future__ import annotations

import datetime
from pathlib import Path

from planner.domain.athlete import Athlete, JointState
from planner.domain.block_before import BlockBefore
from planner.domain.findings import Finding, UserError
from planner.domain.next_block_rule import NextBlockAims
from planner.domain.template import Template
from planner.estimate.contact_change import DROP_JUMP, TAKE_OFF, longer_percent, tested_contacts_s
from planner.files.locate import Located
from planner.jobs.block_as_done import BlockAsDone
from planner.jobs.block_references import reference
from planner.jobs.check_log import log_path
from planner.jobs.outcome_of_block import outcome_from
from planner.jobs.sources import Sources
from planner.jobs.trained_block import Trained, last_test_day, trained_block
from planner.past.pain_now import pain_now
from planner.problem.not_plannable import refuse_logged_pain
from planner.problem.rising_work import gains, planned_kg
from planner.problem.training_days import ONE_DAY
from planner.report.block_result import Outcome
from planner.report.next_block import NextBlock

# Where a block has no outcome, the next one follows the tests alone.
NO_OUTCOME = ("no-retest", "no-test-before", "other-method")
SHARE_DIGITS = 3
SETTLED = "write the pain of now into the athlete's file (joints) and plan without --after"
CONTACT_OF = {"drop jumps": DROP_JUMP, "bounds": TAKE_OFF, "run-up jumps": TAKE_OFF}


def next_block(path: str, sources: Sources, folder: Path, asked: datetime.date | None = None) -> NextBlock:
    """What the block at ``path`` leaves to one of these sources that is kept in ``folder``. ``asked``: its first day.

    Raises UserError where its files have findings, it is another athlete's, or the first day is too early.
    """
    trained = trained_block(path, str(sources.at.athlete.path))
    _refuse_another(trained, sources.athlete.require())
    done = BlockAsDone(trained)
    start = _start(trained, done, sources.athlete.require(), asked)
    rested = (start - done.last_hard_day).days - 1
    outcome, no_outcome = _outcome(trained)
    wants = NextBlockAims() if outcome is None else trained.next_rule.asked.get(outcome.row, NextBlockAims())
    longer = _longer(trained)
    held = trained.next_rule.contact_longer_percent
    log_at = log_path(trained.path)
    pain = _pain(trained, sources.athlete.require())
    refuse_logged_pain(pain, sources.template.require(), str(log_at), SETTLED)
    before = BlockBefore(
        block=reference(Located(trained.path, path, ""), trained.loaded.sha256, folder),
        log=None if trained.log_sha256 is None else reference(Located(log_at, "", ""), trained.log_sha256, folder),
        last_hard_day=done.last_hard_day,
        row=None if outcome is None else outcome.row,
        lifts=wants.lifts,
        jumps=wants.jumps,
        rotate=wants.rotate,
        usual_week=done.usual_week(_share(rested, trained, sources.template.require())),
        known=tuple(done.known()),
        ladder={name: height for name, height in done.ladder().items() if (longer[name] or 0.0) <= held},
        maxima=_maxima(trained),
        pain=pain,
    )
    return NextBlock(
        path=path,
        block=trained.block,
        before=before,
        start=start,
        rested=rested,
        outcome=outcome,
        no_outcome=no_outcome,
        told=trained.told,
        longer=longer,
        warnings=trained.warnings,
    )


def _refuse_another(trained: Trained, athlete: Athlete) -> None:
    name = trained.block.for_athlete.name
    if name != athlete.name:
        message = f"the block is for {name}, but the athlete's file is for {athlete.name}"
        hint = "name a block of this athlete"
        raise UserError([trained.loaded.finding(("for_athlete", "name"), "other-athlete", message, hint)])


def _start(trained: Trained, done: BlockAsDone, athlete: Athlete, asked: datetime.date | None) -> datetime.date:
    """``asked``, else within the easier days the weekday that the block before began on, else a training day."""
    rule = trained.next_rule
    earliest = done.last_hard_day + (rule.easier_days + 1) * ONE_DAY
    if asked is not None:
        if asked < earliest:
            message = f"{asked} is too early: the last hard day was {done.last_hard_day}"
            hint = f"--start {earliest} leaves {rule.easier_days} easier days between"
            raise UserError([Finding(trained.loaded.path, 0, 0, "too-early", message, hint)])
        return asked
    first = max(earliest, last_test_day(trained.block) + (rule.easier_days + 1) * ONE_DAY)
    days = [first + late * ONE_DAY for late in range(7)]
    usual = [day for day in days if day.weekday() == trained.block.weeks[0].start.weekday()]
    trains = {day.day for day in athlete.training.days}
    near = [day for day in usual if (day - first).days <= rule.most_easier_days - rule.easier_days]
    return next(day for day in [*near, *days] if f"{day:%a}".lower() in trains)


def _share(rested: int, trained: Trained, template: Template) -> float:
    """After a longer rest the usual week counts for less, as after days lost within a block."""
    back = template.coming_back
    if back is None or rested <= max(trained.next_rule.most_easier_days, back.light_up_to_days):
        return 1.0
    return back.easy_week_share


def _outcome(trained: Trained) -> tuple[Outcome | None, str]:
    try:
        return outcome_from(trained), ""
    except UserError as error:
        found = error.findings[0]
        if found.code not in NO_OUTCOME:
            raise
        return None, found.message


def _longer(trained: Trained) -> dict[str, float | None]:
    """By ladder of jumps: by how many percent contact is longer than before the block."""
    athlete, benchmarks = trained.sources.athlete.require(), trained.sources.benchmarks.require()
    later = tuple(test for test in athlete.tests if test.date >= last_test_day(trained.block))
    before = tested_contacts_s(trained.athlete, benchmarks)
    after = tested_contacts_s(athlete.model_copy(update={"tests": later}), benchmarks)
    return {ladder: longer_percent(before, after, kind) for ladder, kind in CONTACT_OF.items()}


def _maxima(trained: Trained) -> dict[str, float]:
    """Of lifts not tested since it began: as the log speaks for them; without one what a novice was planned to gain.

    A lift that the log does not mention stays as that block took it over.
    """
    began, problem = trained.block.weeks[0].start, trained.problem
    tests = trained.sources.athlete.require().tests
    tested = {getattr(test, "movement", None) for test in tests if test.date > began}
    if trained.told is not None:
        own = [(one, one.tested.load_kg) for one in trained.told.lifts if one.tested is not None and one.tested.own]
        found = {one.movement: one.now_kg / tested_kg for one, tested_kg in own}
    else:
        grown = planned_kg(problem, 1.0, problem.load_weeks[-1])
        found = {lift: grown for lift, _ in problem.one_rm_kg} if gains(problem) else {}
    shares = {lift: problem.gained.get(lift, 1.0) * found.get(lift, 1.0) for lift in sorted({*problem.gained, *found})}
    return {lift: round(share, SHARE_DIGITS) for lift, share in shares.items() if lift not in tested and share > 0}


def _pain(trained: Trained, athlete: Athlete) -> tuple[JointState, ...]:
    """Joints that hurt more at the end of the log than the athlete's file says: of the two the worse counts."""
    if trained.told is None:
        return ()
    known = {(state.joint, state.side): state.pain for state in athlete.joints}
    found = pain_now(trained.told.done, trained.rules.pain)
    return tuple(state for state in found if state.pain > known.get((state.joint, state.side), 0))
