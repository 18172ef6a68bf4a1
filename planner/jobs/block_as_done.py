"""A block as it was really done, counted as a plan is: its usual week, its movements, how far its jumps had got."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from planner.domain.block_before import KnownMovement, UsualWeek
from planner.domain.block_parts import LegPoints
from planner.domain.terms import JOINTS, LEGS, TIERS
from planner.jobs.trained_block import Trained
from planner.problem.revised import week_of
from planner.rules.jump_ladder import rung_of
from planner.rules.recount import CountedItem, CountedWeek, count_week


@dataclass(frozen=True)
class BlockAsDone:
    """The block as it was done, by its log; without one as it was planned."""

    trained: Trained

    @cached_property
    def weeks(self) -> list[CountedWeek]:
        """All weeks; of a log those that it covers wholly."""
        told = self.trained.told
        whole = [] if told is None else [one.done for one in told.weeks if one.is_whole]
        if any(week.is_load for week in whole):
            return whole
        return [count_week(week, self.trained.problem) for week in self.trained.block.weeks]

    @cached_property
    def last_hard_day(self) -> datetime.date:
        """Of its sessions and of the athlete's tests."""
        sessions = [(s.date, s.is_test or s.session.hard_day) for week in self.weeks for s in week.sessions if s.items]
        done = [date for date, hard in sessions if hard] or [date for date, _ in sessions]
        return max([*done, *(test.date for test in self.trained.sources.athlete.require().tests)])

    @property
    def last_load_weeks(self) -> list[CountedWeek]:
        return [week for week in self.weeks if week.is_load][-self.trained.next_rule.usual_weeks :]

    def usual_week(self, share: float) -> UsualWeek:
        weeks = self.last_load_weeks

        def mean(values: Sequence[float], digits: int | None = None) -> float:
            return round(share * sum(values) / len(values), digits)

        sport = self._sport_contacts()
        return UsualWeek(
            weeks=tuple(week.number for week in weeks),
            weekly_contacts=int(mean([week.contacts + sport.get(week.number, 0) for week in weeks])),
            weekly_high_contacts=int(mean([week.tier_contacts("high") for week in weeks])),
            weekly_sprints=int(mean([week.sprint_efforts for week in weeks])),
            weekly_working_sets=int(mean([week.working_sets for week in weeks])),
            leg_contacts={
                tier: LegPoints(**{leg: mean([week.leg_tier_contacts(tier, leg) for week in weeks], 1) for leg in LEGS})
                for tier in TIERS
            },
            joint_stress={
                joint: LegPoints(**{leg: mean([week.stress(joint, leg) for week in weeks], 1) for leg in LEGS})
                for joint in JOINTS
            },
        )

    def _sport_contacts(self) -> dict[int, int]:
        """Practices, matches, and other work that the log tells of."""
        block, told = self.trained.block, self.trained.told
        found = self.trained.problem.sport_contacts()
        known = block.revision.extra if block.revision is not None else ()
        for work in () if told is None else told.log.extra:
            week = week_of(work.date, block.weeks[0].start)
            if work not in known and week in found:
                found[week] += work.contacts
        return found

    def known(self) -> Iterator[KnownMovement]:
        weeks: dict[str, set[int]] = {}
        parts = {}
        for number, item in self._worked():
            weeks.setdefault(item.movement.id, set()).add(number)
            parts[item.movement.id] = item.movement.part
        last = {week.number for week in self._last_phase()}
        for movement in sorted(weeks):
            held = weeks[movement]
            yield KnownMovement(movement=movement, part=parts[movement], weeks=len(held), to_the_end=bool(held & last))

    def ladder(self) -> dict[str, float]:
        """How far each ladder of jumps had got."""
        found: dict[str, float] = {}
        for _, item in self._worked():
            rung = rung_of(item.movement)
            if rung is not None:
                found[rung[0]] = max(found.get(rung[0], 0.0), rung[1])
        return found

    def _last_phase(self) -> list[CountedWeek]:
        load = [week for week in self.weeks if week.is_load]
        return [week for week in load if week.week.phase == load[-1].week.phase]

    def _worked(self) -> Iterator[tuple[int, CountedItem]]:
        for week in self.weeks:
            yield from ((week.number, item) for item in week.items if item.works and not item.is_test)
