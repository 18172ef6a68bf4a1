"""What the log of a block shows so far, with planned and done counted by the same code, week by week."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from planner.domain.block import Block, Item, Session, Week
from planner.domain.findings import Finding
from planner.domain.follow_up import FollowUp
from planner.domain.training_log import TrainingLog
from planner.past.done import DoneSession, done_weeks
from planner.past.jump_days import JumpLine
from planner.past.lift_course import LiftCourse
from planner.past.load_advice import Advisor, LoadAdvice
from planner.past.pain_course import PainCourse
from planner.past.session_load import WeekLoad, week_load
from planner.prescription.iron import loads
from planner.problem.loads import machine_loads_kg
from planner.problem.model import Problem
from planner.rules.recount import CountedWeek, count_week
from planner.rules.target_jump_weekly import is_target_jump


@dataclass(frozen=True)
class WeekDone:
    """A week's planned sessions up to the last day that the log tells of, and the sessions done in it."""

    week: Week
    planned: CountedWeek
    done: CountedWeek
    minutes_planned: int
    minutes_done: int
    load: WeekLoad
    is_whole: bool  # no session of the week lies after that day


@dataclass(frozen=True)
class Followed:
    """``through``: the last day that the log tells of; ``open_sessions``: planned up to then, without an entry."""

    block: Block
    problem: Problem
    log: TrainingLog
    rules: FollowUp
    done: tuple[DoneSession, ...]
    through: datetime.date
    lifts: list[LiftCourse]
    jumps: list[JumpLine]
    pain: list[PainCourse]
    open_sessions: tuple[Session, ...]
    warnings: list[Finding]

    @property
    def coming(self) -> tuple[Session, ...]:
        """Sessions after the last day of the log, in order."""
        return tuple(session for session in self.block.sessions if session.date > self.through)

    @property
    def target_jumps(self) -> list[JumpLine]:
        """The log's lines of touches of the target jump."""
        library = self.problem.library
        return [line for line in self.jumps if is_target_jump(self.problem, library[line.movement])]

    @cached_property
    def weeks(self) -> list[WeekDone]:
        """The weeks that have begun by the last day of the log."""
        take_off = self.problem.athlete.take_off
        done = done_weeks(self.block, self.log, self.problem.library, take_off, only_logged=True)
        return [
            self._week(planned, real)
            for planned, real in zip(self.block.weeks, done, strict=True)
            if planned.start <= self.through
        ]

    def load_advice(self, session: Session) -> list[LoadAdvice]:
        """Advice for every lift of a coming session that was done before with a load."""
        return self._advisor.for_session(self.block, session.id, self.done)

    def _week(self, planned: Week, done: Week) -> WeekDone:
        so_far = tuple(session for session in planned.sessions if session.date <= self.through)
        return WeekDone(
            week=planned,
            planned=count_week(planned.model_copy(update={"sessions": so_far}), self.problem),
            done=count_week(done, self.problem),
            minutes_planned=sum(session.minutes for session in so_far),
            minutes_done=sum(session.minutes for session in done.sessions),
            load=week_load(self.done, planned.start),
            is_whole=len(so_far) == len(planned.sessions),
        )

    @cached_property
    def _advisor(self) -> Advisor:
        weighed = [one.entry.body_mass for one in self.done if one.entry.body_mass is not None]
        body_kg = weighed[-1] if weighed else self.problem.athlete.body_mass
        return Advisor(self.rules.loads, self.problem.library, body_kg, self.problem.youth, self._loads_kg)

    def _loads_kg(self, item: Item) -> Sequence[float] | None:
        """Every load that the gym can make for the item; None where any will do."""
        if item.implement == "machine":
            return machine_loads_kg(self.problem.template.loads.machine_step_kg)
        return [built.load_kg for built in loads(item, self.block.for_athlete.gym)] or None
