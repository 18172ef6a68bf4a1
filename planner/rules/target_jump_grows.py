"""Later load phases hold more of the target jump than the first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import gcd

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.figure_words import counted
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule
from planner.rules.target_jump_weekly import is_target_jump


@dataclass(frozen=True)
class Compared:
    """The load weeks of the first load phase and of a later one, and how many contacts a week come on top."""

    first: list[int]
    later: list[int]
    more_a_week: int

    @property
    def weights(self) -> tuple[int, int]:
        """Of the first phase's sum and of the later one's, so that the mean of a week is compared."""
        common = gcd(len(self.first), len(self.later))
        return len(self.later) // common, len(self.first) // common

    @property
    def least(self) -> int:
        """By how much the weighted sum of the later phase is over that of the first."""
        return self.more_a_week * len(self.first) * len(self.later) // gcd(len(self.first), len(self.later))


class TargetJumpGrows(Rule):
    id = "target-jump-grows"
    title = "More of the target jump later"
    says = (
        "A later load phase holds more target jumps a week than the first; not with a sore tendon. Weeks that lose a "
        "training day do not count."
    )
    source = "common practice, no source"
    unit = "contacts"
    hard = False

    def figures(self, template: Template) -> str:
        asked = template.target_jumps
        if asked is None or not asked.more_later:
            return ""
        standing, run_up = asked.standing.effort_percent, asked.run_up.effort_percent
        more = counted(asked.more_later, "contact")
        counts = f"{standing} % standing, {run_up} % off a run-up"
        return f"On average at least {more} more a week, counting jumps from {counts}."

    def price(self, template: Template) -> dict[str, int]:
        return {"contact": template.prices.target_jump}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for pair in _compared(problem):
            of_first, of_later = pair.weights
            terms = [
                (sign * entry.dosage.contacts, entry.key)
                for weeks, sign in ((pair.first, -of_first), (pair.later, of_later))
                for week in weeks
                for entry in problem.week_entries(week)
                if is_target_jump(problem, entry.movement)
            ]
            price = problem.template.prices.target_jump
            yield self.row(Address(week=pair.later[0]), terms, low=pair.least, price=price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for pair in _compared(plan.problem):
            was, now = (_done(plan, weeks) for weeks in (pair.first, pair.later))
            of_first, of_later = pair.weights
            short = pair.least - (of_later * now - of_first * was)
            if short > 0:
                name = plan.problem.phase_name(pair.later[0])
                alike = "" if of_first == of_later else f", made alike by {of_later} and {of_first}"
                sentence = (
                    f"phase '{name}': {of_later * now} target jumps in its load weeks, {of_first * was} in those of "
                )
                sentence += f"the first{alike}; at least {pair.least} more belong there"
                yield self.breach(Address(week=pair.later[0]), sentence, short)


def _done(plan: Plan, weeks: list[int]) -> int:
    items = [item for week in weeks for item in plan.week(week).items]
    return sum(item.item.contacts for item in items if is_target_jump(plan.problem, item.movement))


def _compared(problem: Problem) -> list[Compared]:
    """The first load phase with each later one; none with a sore tendon, or if no target jump is open."""
    asked = problem.template.target_jumps
    if asked is None or not asked.more_later or problem.has_sore_tendon:
        return []
    if not any(is_target_jump(problem, m) and is_open(problem, m) for m in problem.library):
        return []
    phases: dict[int, list[int]] = {}
    for week in problem.aiming_weeks:
        phases.setdefault(problem.load_phase_number(week), []).append(week)
    first = phases.pop(0, [])
    return [Compared(first, later, asked.more_later) for later in phases.values()] if first else []
