"""Load, repetitions and reserve on a card agree, and nobody trains too close to failure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planner.domain.block import Item
from planner.domain.template import Template
from planner.estimate.strength import OutOfRange, reps_to_failure
from planner.estimate.words import words_of
from planner.problem.loads import own_maximum_kg
from planner.problem.model import Problem
from planner.rules.figure_words import each_level
from planner.rules.rule import Breach, CountedItem, CountedSession, Plan, Row, Rule
from planner.units import counted as number_of


class LoadAgrees(Rule):
    id = "load-agrees"
    title = "Load, reps and reserve agree"
    says = (
        "Where a card prints a load or a percentage, reps plus reps in reserve match the load-repetition table, within "
        "about one, and the load is that percentage of the tested maximum; for a novice, of the maximum planned for "
        "that week. Nobody trains with less in reserve than the level's least."
    )
    source = "NSCA training load chart; that people differ: Nuzzo et al. 2024, Sports Med 54:303"
    unit = "repetitions"

    def figures(self, template: Template) -> str:
        reserve = each_level(template, lambda level: f"{level.least_reserve}")
        youth, limits, progress = template.youth.least_reserve, template.loads, template.progress
        gain = 0.0 if progress is None else progress.novice_gain_percent_a_week
        novice = f" A novice's tested maximum is planned to gain {gain:g} % a week." if gain else ""
        return (
            f"At least {reserve} reps in reserve, for youth and novices never under {youth}; load, reps "
            f"and reserve agree within {limits.agree_reps:g} reps, load and percentage within "
            f"{limits.agree_percent:g} % of the maximum; with {limits.easy_reserve} or more reps in reserve, a lighter "
            f"load is fine too.{novice}"
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: every movement gets its load from its planned progression."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        problem = plan.problem
        least = max(problem.level.least_reserve, problem.template.youth.least_reserve if problem.youth else 0)
        for week, session, counted in plan.working_items():
            item = counted.item
            if item.reps_in_reserve is not None and item.reps_in_reserve < least:
                sentence = (
                    f"{counted.name} in {session.where} leaves {number_of(item.reps_in_reserve, 'rep')} in reserve; "
                )
                yield self.breach(session.at_item(counted), f"{sentence}at least {least}", least - item.reps_in_reserve)
            yield from self._percentage(plan, session, counted, week.number)

    def _percentage(self, plan: Plan, session: CountedSession, counted: CountedItem, week: int) -> Iterator[Breach]:
        item, where, at, problem = counted.item, session.where, session.at_item(counted), plan.problem
        of_load, limits = _percent_of_load(plan, counted, week), problem.template.loads
        percent = item.percent if of_load is None else of_load
        if of_load is not None and item.percent is not None and abs(of_load - item.percent) > limits.agree_percent:
            load = words_of(problem.athlete).load(item.load_kg or 0.0, 2)
            sentence = f"{counted.name} in {where}: {load} is {of_load:.1f} % of the tested maximum; "
            yield self.breach(at, sentence + f"the card says {item.percent:g} %", 1)
        off = None if percent is None else _reps_off(item, percent, problem.load_table, limits.easy_reserve)
        if off is not None and abs(off) > limits.agree_reps:
            left = number_of(item.reps_in_reserve or 0, "rep")
            sentence = f"{counted.name} in {where}: {item.reps} reps with {left} in reserve at {percent:.1f} % do not "
            sentence += f"agree; the table is {abs(off):.1f} repetitions away"
            yield self.breach(at, sentence, abs(off))


def _percent_of_load(plan: Plan, counted: CountedItem, week: int) -> float | None:
    """The printed load as a percentage of the maximum, with the share of body mass that is lifted.

    The maximum is the tested one; a novice's is the one planned for the week.
    """
    problem = plan.problem
    best_kg = own_maximum_kg(problem, counted.movement)
    if counted.item.load_kg is None or best_kg is None:
        return None
    progress = problem.template.progress
    if progress is not None and problem.athlete.level == "novice":
        weeks_trained = max(0, week - min(one.number for one in plan.weeks if one.is_load))
        best_kg += weeks_trained * best_kg * progress.novice_gain_percent_a_week / 100
    body_kg = counted.movement.dose.body_mass_share * problem.athlete.body_mass
    return 100 * (counted.item.load_kg + body_kg) / (best_kg + body_kg)


def _reps_off(item: Item, percent: float, table: Mapping[int, float], easy_reserve: int) -> float | None:
    """Repetitions plus reserve, less those that the table gives; None if no reserve is printed.

    A load above the table allows no repetition; one below it, at least the table's most.
    """
    if item.reps is None or item.reps_in_reserve is None:
        return None
    total = item.reps + item.reps_in_reserve
    try:
        return total - reps_to_failure(percent, table=table)
    except OutOfRange:
        if percent > max(table.values()):
            return total
        return None if item.reps_in_reserve >= easy_reserve else min(0, total - max(table))
