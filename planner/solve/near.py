"""Stage 3: after a test, a movement or a day has changed, the block with the fewest changes from the one in use."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence

from ortools.sat.python import cp_model

from planner.domain.block import Block, Proof, Stage
from planner.domain.template_prices import NearPrices
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.budgets import DEFAULT_BUDGET, LIKED, NEAR_SHARE
from planner.solve.cp_model import BlockModel, add_hint, build_model, found_any, solver, spent, stage_of, values_of
from planner.solve.found_plan import Progress
from planner.solve.from_block import block_values, movements_of
from planner.solve.prefer import as_hard
from planner.solve.shortfalls import shortfalls
from planner.solve.shortlist import only, shortlist
from planner.solve.stages import Solution, solve

UNIT = "changes"


def solve_near(
    problem: Problem, block: Block, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None
) -> Solution:
    """The block nearest to ``block`` with no greater shortfall than the best there is. Raises as ``solve`` does.

    Stage 1's result is kept and stage 2 skipped: in mid-season a coach wants few surprises, not the finest choice. The
    search covers the block's own movements and a shortlist; its bound is for those.
    """
    kept = movements_of(block) | {m.id for m in shortlist(problem, *LIKED).movements}
    smaller = only(problem, kept & set(problem.library.movements))
    progress("looking for the fewest changes")
    rows = gather_rows(smaller)
    found = fewest_changes(smaller, [dataclasses.replace(row, price=0) for row in rows], block, NEAR_SHARE * budget)
    if found is not None:
        values, near, time = found
        bands = Stage(name="bands", status="optimal", objective=0, bound=0, unit="points")
        return Solution(smaller, values, (), Proof(status="optimal", scope="library", stages=(bands, near)), time)
    return _with_shortfalls(problem, block, budget, progress)


def _with_shortfalls(problem: Problem, block: Block, budget: float, progress: Progress) -> Solution:
    """The bands cannot all be met: find the least shortfall first, then the fewest changes that keep it."""
    best = solve(problem, budget, progress)
    progress("looking for the fewest changes")
    kept = {m.id for m in best.problem.movements} | movements_of(block)
    wider = only(problem, kept & set(problem.library.movements))
    allowed = {row.key: units for row, units in best.missed}
    rows = gather_rows(wider)
    held = [as_hard(row, allowed.get(row.key, 0)) for row in rows]
    found = fewest_changes(wider, held, block, NEAR_SHARE * budget, start=best.values)
    if found is None:
        return best
    values, near, time = found
    proof = Proof(status=best.proof.status, scope=best.proof.scope, stages=(best.proof.stages[0], near))
    return Solution(wider, values, shortfalls(rows, values), proof, round(best.deterministic_time + time, 3))


def fewest_changes(
    problem: Problem, rows: Sequence[Row], block: Block, budget: float, start: Mapping[Variable, int] | None = None
) -> tuple[Values, Stage, float] | None:
    built = build_model(problem, rows)
    old = block_values(block, problem)
    add_hint(built, {key: start.get(key, 0) for key in built.variables} if start is not None else old)
    built.model.minimize(_distance(built, old, problem.template.near))
    solved = solver(budget)
    status = solved.solve(built.model)
    if not found_any(status):
        return None
    return values_of(built, solved), stage_of("near", solved, status, UNIT), spent(solved)


def _distance(built: BlockModel, old: Mapping[Variable, int], prices: NearPrices) -> cp_model.LinearExprT:
    """The price of all changes: of choices by their own variable, of sets by a slack."""
    terms: list[cp_model.LinearExprT] = []
    for key, variable in built.variables.items():
        price = {"in": prices.movement, "takes": prices.shape_moved, "sets": prices.set}.get(key.kind)
        if price is None:
            continue
        high = built.ranges[key][1]
        if key.chooses:
            terms.append(price * (1 - variable) if old[key] else price * variable)
        elif high and old[key] == 0:
            terms.append(price * variable)
        elif high:
            change = built.model.new_int_var(0, max(high, old[key]), f"{key}/change")
            built.model.add(change >= variable - old[key])
            built.model.add(change >= old[key] - variable)
            terms.append(price * change)
    return cp_model.LinearExpr.sum(terms)
