"""Drop jumps, bounds and run-up jumps get harder from load phase to load phase."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import Words, words_of
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import in_key
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term
from planner.rules.tested_box import box_of

Rung = tuple[str, float]  # which ladder, and how high: metres of a box, or per cent of full effort


class JumpLadder(Rule):
    id = "jump-ladder"
    title = "Jumps get harder by phase"
    says = (
        "A later load phase has a higher box, fuller bounds or fuller run-up jumps than an earlier one, until the "
        "hardest that is open to the athlete; with a sore tendon nothing has to get harder. After another block the "
        "first phase goes on from where that ended, if contact held."
    )
    source = "common practice, no source"
    unit = "movements"

    def figures(self, template: Template) -> str:
        return "Drop jumps by the box, bounds and run-up jumps by effort." if template.jump_progress else ""

    def rows(self, problem: Problem) -> Iterator[Row]:
        rungs = {m.id: rung for m in problem.movements if (rung := rung_of(m)) is not None}
        top = _tops(problem)
        for first, later in _pairs(problem):
            for slot in later.slots:
                for movement, rung in rungs.items():
                    if rung[0] in top and rung[1] < top[rung[0]]:
                        yield from self._climbs(problem, first, later, slot, movement, rungs)

        yield from self._goes_on(problem, rungs)

    def _goes_on(self, problem: Problem, rungs: dict[str, Rung]) -> Iterator[Row]:
        """In the first load phase a movement below what was reached needs one as hard there, on any day of it."""
        start = _start(problem)
        for phase, slot, movement in problem.choices if start else ():
            ladder, height = rungs.get(movement, ("", 0.0))
            if phase != problem.load_phases[0].id or height >= start.get(ladder, 0.0):
                continue
            hard = {name for name, rung in rungs.items() if rung[0] == ladder and rung[1] >= start[ladder]}
            enough: list[Term] = [(-1, in_key(*one)) for one in problem.choices if one[0] == phase and one[2] in hard]
            chosen = in_key(phase, slot, movement)
            yield self.row(chosen.at, [(1, chosen), *enough], high=0)

    def _climbs(
        self, problem: Problem, first: Phase, later: Phase, slot: int, movement: str, rungs: dict[str, Rung]
    ) -> Iterator[Row]:
        """The movement in a later phase, with one at least as hard in an earlier phase, needs a harder one there."""
        ladder, height = rungs[movement]
        chosen = in_key(later.id, slot, movement)
        same = [(name, rung[1]) for name, rung in rungs.items() if rung[0] == ladder]
        harder: list[Term] = [
            (-1, in_key(later.id, other, name)) for name, h in same if h > height for other in later.slots
        ]
        known = {*problem.choices}
        harder = [term for term in harder if (later.id, term[1].at.slot, term[1].at.movement) in known]
        for name, reached in same:
            for day in first.slots:
                if reached >= height and (first.id, day, name) in known and (later.id, slot, movement) in known:
                    terms = [(1, chosen), (1, in_key(first.id, day, name)), *harder]
                    yield self.row(chosen.at, terms, high=1, other=Address(phase=first.id, slot=day, movement=name))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        top, words = _tops(plan.problem), words_of(plan.problem.athlete)
        for first, later in _pairs(plan.problem):
            was, now = _reached(plan, first), _reached(plan, later)
            for ladder, height in now.items():
                if ladder in was and was[ladder] >= height and height < top.get(ladder, 0.0):
                    sentence = f"{ladder}: {rung_in_words(ladder, was[ladder], words)} in the phase '{first.name}', "
                    sentence += f"{rung_in_words(ladder, height, words)} in '{later.name}'; "
                    sentence += f"{rung_in_words(ladder, top[ladder], words)} is open"
                    yield self.breach(Address(phase=later.id), sentence, 1)
        start = _start(plan.problem)
        if not start:
            return
        first = plan.problem.load_phases[0]
        for ladder, height in _reached(plan, first).items():
            if height < start.get(ladder, 0.0):
                sentence = f"{ladder}: {rung_in_words(ladder, start[ladder], words)} in the block before, "
                sentence += f"{rung_in_words(ladder, height, words)} in the phase '{first.name}'"
                yield self.breach(Address(phase=first.id), sentence, 1)


def rung_of(movement: Movement) -> Rung | None:
    """The ladder that a movement is on, and its height there."""
    jump, box = movement.jump, box_of(movement)
    if jump is None:
        return None
    if box is not None:
        return "drop jumps", box
    if jump.direction == "horizontal" and movement.legs == "alternate" and jump.approach == "rebound":
        return ("bounds", float(jump.effort_percent)) if movement.part == "jump" else None
    return ("run-up jumps", float(jump.effort_percent)) if movement.part == "approach-jump" else None


def rung_in_words(ladder: str, height: float, words: Words) -> str:
    return words.box(height) if ladder == "drop jumps" else f"{height:g} %"


def _tops(problem: Problem) -> dict[str, float]:
    """The highest open rung of each ladder; none at all with a sore tendon, or if the template asks for no ladder."""
    if problem.template.jump_progress is None or problem.has_sore_tendon:
        return {}
    found: dict[str, float] = {}
    for movement in problem.library:
        rung = rung_of(movement)
        if rung is not None and rung[1] > found.get(rung[0], 0.0) and is_open(problem, movement):
            found[rung[0]] = rung[1]
    return found


def _start(problem: Problem) -> dict[str, float]:
    """Where each ladder goes on after another block: as far as that came, or as is open and dosed from the start."""
    if problem.before is None:
        return {}
    top, dosed = _tops(problem), dict[str, float]()
    first = problem.load_phases[0]
    for entry in (entry for week in first.weeks for entry in problem.week_entries(week)):
        rung = rung_of(entry.movement)
        if rung is not None and entry.dosage.high_sets and is_open(problem, entry.movement):
            dosed[rung[0]] = max(dosed.get(rung[0], 0.0), rung[1])
    both = [ladder for ladder in problem.before.ladder if ladder in top and ladder in dosed]
    return {ladder: min(problem.before.ladder[ladder], top[ladder], dosed[ladder]) for ladder in both}


def _pairs(problem: Problem) -> list[tuple[Phase, Phase]]:
    """Each load phase with each later one; pieces of one phase are not compared."""
    return [(one, other) for one, other in combinations(problem.load_phases, 2) if one.name != other.name]


def _reached(plan: Plan, phase: Phase) -> dict[str, float]:
    """The highest rung of each ladder that the phase's weeks hold."""
    found: dict[str, float] = {}
    for week in phase.weeks:
        for item in plan.week(week).items:
            rung = rung_of(item.movement) if item.works and not item.is_test else None
            if rung is not None:
                found[rung[0]] = max(found.get(rung[0], 0.0), rung[1])
    return found
