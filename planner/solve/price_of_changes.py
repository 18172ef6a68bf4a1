"""What the changes from a running block weigh: by movement, day and set, in a coach's prices."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from ortools.sat.python import cp_model

from planner.domain.movement import Movement
from planner.domain.template_prices import RevisePrices
from planner.problem.model import Entry, Problem
from planner.problem.variable import Variable, in_key
from planner.solve.cp_model import BlockModel

Place = tuple[str, int]  # phase and training day
Shared = tuple[Literal["part", "family"], str]  # what two movements have in common


def price_of_changes(
    built: BlockModel, old: Mapping[Variable, int], problem: Problem, prices: RevisePrices
) -> cp_model.LinearExprT:
    """The price of all changes from ``old`` to be minimised, in parts of a point: ``prices.contacts`` make one."""
    whole = cp_model.LinearExpr.sum([*_shapes(built, old, problem, prices), *_movements(built, old, problem, prices)])
    return prices.contacts * whole + cp_model.LinearExpr.sum(list(_sets(built, old, problem, prices)))


def _dearer(problem: Problem, week: int, prices: RevisePrices) -> int:
    return prices.first_week_factor if week == problem.first_week else 1


def _shapes(
    built: BlockModel, old: Mapping[Variable, int], problem: Problem, prices: RevisePrices
) -> Iterator[cp_model.LinearExprT]:
    """Two days are swapped where both lose the shape that they had; a day is moved where one is left without any."""
    half = prices.shapes_swapped // 2
    held: dict[int | None, list[cp_model.IntVar]] = {}
    for key, variable in built.variables.items():
        if key.kind == "takes" and key not in problem.past:
            held.setdefault(key.at.slot, []).append(variable)
            if old[key]:
                yield half * (1 - variable)
    begun = {key.at.slot for key, value in old.items() if key.kind == "takes" and value}
    for slot, variables in held.items():
        if slot in begun:
            yield (prices.day_moved - half) * (1 - cp_model.LinearExpr.sum(variables))


def _movements(
    built: BlockModel, old: Mapping[Variable, int], problem: Problem, prices: RevisePrices
) -> Iterator[cp_model.LinearExprT]:
    """What leaves and what is new; cheaper where the one takes the other's place, cheapest inside a family."""
    first_weeks = {phase.id: phase.weeks[0] for phase in problem.phases}
    out: dict[tuple[Place, Shared], list[cp_model.LinearExprT]] = {}
    into: dict[tuple[Place, Shared], list[cp_model.LinearExprT]] = {}
    for key, variable in built.variables.items():
        if key.kind != "in" or key in problem.past:
            continue
        movement = problem.library[key.at.movement or ""]
        factor = _dearer(problem, first_weeks[key.at.phase or ""], prices)
        place = (key.at.phase or "", key.at.slot or 0)
        change: cp_model.LinearExprT = 1 - variable if old[key] else variable
        yield factor * _alone(movement, prices, is_old=bool(old[key])) * change
        for kind in _kinds(problem, movement):
            (out if old[key] else into).setdefault((place, kind), []).append(change)
    for (place, kind), those in out.items():
        if (place, kind) in into:
            saved = _saved(kind, prices) * _dearer(problem, first_weeks[place[0]], prices)
            both = built.model.new_int_var(0, len(those), f"replaced/{place[0]}/{place[1]}/{kind[0]} {kind[1]}")
            built.model.add(both <= cp_model.LinearExpr.sum(those))
            built.model.add(both <= cp_model.LinearExpr.sum(into[place, kind]))
            yield -saved * both


def _alone(movement: Movement, prices: RevisePrices, *, is_old: bool) -> int:
    if not is_old:
        return prices.added
    is_main = movement.part == "main-lift"
    return prices.main_lift_replaced - prices.added if is_main else prices.dropped


def _kinds(problem: Problem, movement: Movement) -> tuple[Shared, ...]:
    """What another movement must share with it to take its place. A main lift's price is whole as it is."""
    if movement.part == "main-lift":
        return ()
    return ("part", movement.part), ("family", problem.library.families[movement.id])


def _saved(shared: Shared, prices: RevisePrices) -> int:
    """What a replacement costs less than a movement out and one in; in a family it saves the rest on top."""
    in_part = prices.dropped + prices.added - prices.replaced
    return prices.replaced - prices.replaced_in_family if shared[0] == "family" else in_part


def _sets(
    built: BlockModel, old: Mapping[Variable, int], problem: Problem, prices: RevisePrices
) -> Iterator[cp_model.LinearExprT]:
    """Sets of the movements that stay, in the same parts of a point; of jumps their contacts."""
    for week in range(problem.first_week, problem.last_week + 1):
        for entry in problem.week_entries(week):
            key, stays_key = entry.key, in_key(problem.phase_of(week), entry.slot, entry.movement.id)
            most = built.ranges[key][1]
            if key in problem.past or stays_key not in built.variables or not old[key] or not most:
                continue
            change = built.model.new_int_var(0, max(most, old[key]), f"{key}/change")
            built.model.add(change >= built.variables[key] - old[key])
            built.model.add(change >= old[key] * built.variables[stays_key] - built.variables[key])
            yield _dearer(problem, week, prices) * _a_set(entry, prices) * change


def _a_set(entry: Entry, prices: RevisePrices) -> int:
    if entry.movement.part == "main-lift":
        return prices.main_lift_set * prices.contacts
    return prices.set * (entry.dosage.contacts or prices.contacts)
