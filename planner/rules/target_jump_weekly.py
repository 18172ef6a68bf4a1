"""Every load week holds the target jump itself, and later load phases hold more of it."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.figure_words import counted
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class TargetJumpWeekly(Rule):
    id = "target-jump-weekly"
    title = "The target jump every week"
    says = (
        "Every load week holds the target jump itself: the same take-off, from a stand or off a run-up, free of load "
        "and near full effort. Later load phases hold more of it. Pain, and a sport that jumps by itself, lower the "
        "number; a week that loses a training day, or is easy after days lost, is exempt."
    )
    source = "common practice, no source"
    unit = "contacts"
    hard = False

    def figures(self, template: Template) -> str:
        if template.target_jumps is None:
            return ""
        asked = template.target_jumps
        kinds = [
            f"{name} at least {one.least} a week, {one.later_least} after the first load phase, at "
            f"{one.effort_percent} % or more"
            for name, one in (("from a stand", asked.standing), ("off a run-up", asked.run_up))
        ]
        sport = counted(asked.much_sport_contacts, "contact")
        return (
            f"{kinds[0][:1].upper()}{kinds[0][1:]}; {kinds[1]}. With a sore tendon at least {asked.least_with_pain}; "
            f"with a sport of {sport} a week at least {asked.least_with_much_sport}."
        )

    def price(self, template: Template) -> dict[str, int]:
        return {"contact": template.prices.target_jump}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, least in _asked(problem).items():
            terms = [
                (entry.dosage.contacts, entry.key)
                for entry in problem.week_entries(week)
                if is_target_jump(problem, entry.movement)
            ]
            yield self.row(Address(week=week), terms, low=least, price=problem.template.prices.target_jump)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for number, least in _asked(plan.problem).items():
            week = plan.week(number)
            done = sum(item.item.contacts for item in week.items if is_target_jump(plan.problem, item.movement))
            if done < least:
                sentence = f"week {number}: {done} of the target jump; at least {least} belong there"
                yield self.breach(week.at, sentence, least - done)


def is_target_jump(problem: Problem, movement: Movement) -> bool:
    """Whether it is the jump that the target asks for, near full effort; the closing test is not a movement of it."""
    jump, athlete, asked = movement.jump, problem.athlete, problem.template.target_jumps
    if jump is None or asked is None or jump.direction != "vertical" or movement.id == problem.retest.id:
        return False
    off_run_up = athlete.approach.steps > 0
    if jump.effort_percent < (asked.run_up if off_run_up else asked.standing).effort_percent:
        return False
    if movement.dose.load != "none" or (athlete.take_off == "two-leg") is not (movement.legs == "both"):
        return False
    if off_run_up:
        return movement.part == "approach-jump"
    plain = jump.as_a_target and not movement.equipment and jump.drop is None and jump.height is None
    return plain and jump.approach == "standing" and movement.part == "jump"


def _asked(problem: Problem) -> dict[int, int]:
    """The fewest target jumps of each load week that loses no day; none if no target jump is open."""
    asked = problem.template.target_jumps
    if asked is None or not any(is_target_jump(problem, m) and is_open(problem, m) for m in problem.library):
        return {}
    one, most = asked.run_up if problem.athlete.approach.steps else asked.standing, 10**6
    if problem.has_sore_tendon:
        most = asked.least_with_pain
    sport = problem.sport_contacts()
    found = {}
    for week in problem.aiming_weeks:
        least = one.later_least if problem.load_phase_number(week) else one.least
        with_sport = asked.least_with_much_sport if sport[week] >= asked.much_sport_contacts else most
        found[week] = min(least, most, with_sport)
    return found
