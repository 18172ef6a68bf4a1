"""An athlete short of speed does something truly fast in every load phase."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.rules.figure_words import percent
from planner.rules.flying_sprints import is_flying
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class SpeedDeficit(Rule):
    id = "speed-deficit"
    title = "Fast work where speed is short"
    says = (
        "If the tests show less speed than the target takes, every load phase holds flying sprints or drop jumps, as "
        "far as they are open to the athlete: efforts are not enough, they must be fast."
    )
    source = "after Haugen et al. 2019, Sports Med Open 5:44; the percentage is common practice, no source"
    unit = "load phases"
    hard = False

    def figures(self, template: Template) -> str:
        asked = template.sprint_work
        return f"From {percent(asked.short_of_speed)} short." if asked else ""

    def price(self, template: Template) -> dict[str, int]:
        return {"load phase": template.prices.fast_phase}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for phase in _phases(problem):
            entries = [entry for week in _load_weeks(problem, phase) for entry in problem.week_entries(week)]
            terms = [(1, entry.key) for entry in entries if _is_fast(entry.movement)]
            yield self.row(Address(phase=phase.id), terms, low=1, price=problem.template.prices.fast_phase)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for phase in _phases(plan.problem):
            items = [item for week in _load_weeks(plan.problem, phase) for item in plan.week(week).items]
            if not any(item.works and _is_fast(item.movement) for item in items):
                sentence = f"the phase '{phase.name}' has no flying sprint and no drop jump, and speed is short"
                yield self.breach(Address(phase=phase.id), sentence, 1)


def _is_fast(movement: Movement) -> bool:
    return is_flying(movement) or (movement.jump is not None and movement.jump.rebound)


def _load_weeks(problem: Problem, phase: Phase) -> list[int]:
    """The easy week of a phase does not count: it has hardly any efforts."""
    return [week for week in phase.weeks if week in problem.load_weeks]


def _phases(problem: Problem) -> list[Phase]:
    """The load phases, if speed is short and something fast is open."""
    asked, found = problem.template.sprint_work, problem.deficits.get("speed-exposure")
    if asked is None or found is None or found.deficit < asked.short_of_speed:
        return []
    if not any(_is_fast(m) and is_open(problem, m) for m in problem.library):
        return []
    return problem.load_phases
