"""A strong athlete's main lift is a loaded one."""

from __future__ import annotations

from planner.domain.measure import LiftTest
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import SORE_TENDONS, Problem
from planner.rules.figure_words import listed
from planner.rules.open_movements import is_open
from planner.rules.rule import ClosingRule, Keys


class MainLiftLoaded(ClosingRule):
    id = "main-lift-loaded"
    title = "A tested main lift before a beginner's"
    says = (
        "Above novice, a beginner's planned progression is never the main lift if a loaded lift of the same pattern "
        "was tested and is open to the athlete. For youth and novices it closes main lifts without a load, unless a "
        "tendon is sore."
    )
    source = "common practice, no source"
    field = ("tests",)
    may_be_opened = True
    allowed_one_by_one = True

    def figures(self, template: Template) -> str:
        return f"Beginner's progressions: {listed(template.preferences.beginner_schemes)}."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        if not problem.template.gates.tested_lift_closes_beginners:
            return None
        if not (_is_unloaded(movement) if problem.youth else _is_beginners(problem, movement)):
            return None
        if self.is_allowed(problem, movement):
            return None
        rival = _tested_rival(problem, movement)
        if rival is None:
            return None
        kind = "a main lift without a load" if problem.youth else "a beginner's main lift"
        return f"is {kind}, and the {rival.name_inside} was tested"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The first test of the lift that goes before it."""
        rival = _tested_rival(problem, movement)
        lift = None if rival is None else rival.id
        return self.line_of_test(problem, lambda test: isinstance(test, LiftTest) and test.movement == lift)


def _tested_rival(problem: Problem, movement: Movement) -> Movement | None:
    """The first tested lift, by its id, that is done as the main lift rather than this movement."""
    lifts = [problem.library.movements.get(lift) for lift, _ in sorted(problem.one_rm_kg)]
    others = (lift for lift in lifts if lift is not None and lift.id != movement.id)
    return next((lift for lift in others if _is_loaded_rival(problem, lift, movement)), None)


def _is_beginners(problem: Problem, movement: Movement) -> bool:
    return movement.part == "main-lift" and movement.dose.scheme in problem.template.preferences.beginner_schemes


def _is_unloaded(movement: Movement) -> bool:
    return movement.part == "main-lift" and movement.dose.load == "none"


def _is_loaded_rival(problem: Problem, tested: Movement, movement: Movement) -> bool:
    """Whether the tested lift is a loaded main lift of the same pattern that the athlete may do."""
    same = tested.part == "main-lift" and set(tested.patterns) & set(movement.patterns)
    if problem.youth:
        heavier = not _is_unloaded(tested) and not _is_felt(problem, tested)
    else:
        heavier = not _is_beginners(problem, tested)
    return bool(same) and heavier and is_open(problem, tested)


def _is_felt(problem: Problem, lift: Movement) -> bool:
    """Whether a sore tendon is stressed by it."""
    sore = [state.joint for state in problem.athlete.joints if state.pain and state.joint in SORE_TENDONS]
    return any(lift.stress.get(joint, 0) for joint in sore)
