"""High-tier jumps need landings that hold and a strong squat, or a coach's allowance."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import words_of
from planner.problem.high_tier import GATE
from planner.problem.model import Problem
from planner.rules.figure_words import listed, percent
from planner.rules.rule import ClosingRule


class HighTierGate(ClosingRule):
    id = GATE
    title = "High-tier jumps are earned"
    says = (
        "High-tier jumps are planned only when landings hold and the squat passes the template's gate, its test's "
        "error weighed, or the coach allows this rule in the athlete's file; never for youth and novices. A weak squat "
        "closes shock jumps, not the own jump off the run-up where a usual week already holds it. Heavy athletes drop "
        "from less height."
    )
    source = "NSCA, seen in second-hand copies (1.5 body masses; another copy gives 1.25-1.5); over 100 kg from memory"
    field = ("landing",)
    may_be_opened = True

    def figures(self, template: Template) -> str:
        gates = template.gates
        open_to = [name for name, level in template.levels.items() if level.highest_tier == "high"]
        errors = f", less {gates.squat_errors:g} standard errors of its test" if gates.squat_errors else ""
        own = gates.own_jump_recent_contacts
        own_jump = f"; the own jump off the run-up with {own} high contacts in a usual week" if own is not None else ""
        return (
            f"Open to {listed(open_to) if open_to else 'no level'}, with a back squat of "
            f"{gates.high_tier_squat_body_mass:g} times body mass{errors}{own_jump}; where closed, "
            f"{percent(gates.closed_high_as_medium)} of its contacts are done in the medium tier; over "
            f"{gates.heavy_body_kg:g} kg no drop from above {gates.heavy_body_drop_m:g} m."
        )

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        jump = movement.jump
        if jump is None:
            return None
        gates, athlete = problem.template.gates, problem.athlete
        if jump.drop is not None and athlete.body_mass > gates.heavy_body_kg and jump.drop > gates.heavy_body_drop_m:
            words, heavy = words_of(athlete), gates.heavy_body_kg
            most = words.box(gates.heavy_body_drop_m)
            return f"drops from {words.box(jump.drop)}; over {words.load(heavy)} at most {most}"
        if jump.tier != "high":
            return None
        return problem.gate.why_closed(movement)

    def opens_for(self, problem: Problem) -> bool:
        return not problem.youth
