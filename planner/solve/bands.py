"""Stage 1: the block that misses least of its bands, and the proof that no block of the whole library misses less.

The cheapest sufficient proof comes first. A block that misses nothing is the best of any library, whichever shortlist
it comes from; in a large library the first shortlists are small mixtures. Otherwise the best block of a shortlist is
compared with the answer to a smaller question about the whole library: only the bands of the rules that were missed,
only the movements that count for those. That answer is a bound, and the movements it uses are worth adding to the
shortlist. Only if block and bound do not meet is the whole library solved in full. Once there is a block, only those
that miss less are looked for: where little is missed, most bands then have to be met, and that is soon ruled out.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.registry import gather_rows, rule_named
from planner.rules.rule import Row
from planner.solve import budgets
from planner.solve.cp_model import BlockModel, add_hint, build_model, found_any, solver, spent, values_of
from planner.solve.found_plan import BudgetSpent, FoundPlan, NoBlock, Progress
from planner.solve.pieces import improved_in_pieces
from planner.solve.refute import verdict
from planner.solve.relax import of_movements, projected
from planner.solve.shortfalls import shortfalls, units_missed
from planner.solve.shortlist import MILD_AND_DOING_MOST, OF_ALL_SORTS, SPARING, mixed, only, open_library, shortlist
from planner.solve.variable_ranges import variable_ranges


@dataclass
class Search:
    """A search of stage 1: its budget, what it has spent, and the bound for the whole library so far."""

    budget: float
    progress: Progress
    spent: float = 0.0
    bound: int = 0
    bound_of_least: int = 0  # what ``least`` last said of its library
    answer: cp_model.CpSolver = field(init=False)

    def run(
        self, model: cp_model.CpModel, share: float, *, from_below: bool = False, in_turns: bool = False
    ) -> bool | None:
        """Whether there is a solution; None if this share of the budget ran out first."""
        self.answer = solver(share * self.budget, from_below=from_below, in_turns=in_turns)
        status = self.answer.solve(model)
        self.spent += spent(self.answer)
        if found_any(status):
            return True
        return False if status == cp_model.INFEASIBLE else None

    def least(self, built: BlockModel, share: float, *, from_below: bool) -> tuple[Values, float, int] | None:
        """Values that miss least, what they miss, and the bound of this library; None if none were found.

        In turns first, which proves most short lists in a tenth of the time; then with relaxations from there.
        """
        best, self.bound_of_least = None, 0
        for in_turns, part in ((True, budgets.BEST_IN_TURNS_SHARE), (False, share)):
            answer = self.run(built.model, part, from_below=from_below and not in_turns, in_turns=in_turns)
            if answer is False:
                return None
            self.bound_of_least = max(self.bound_of_least, round(self.answer.best_objective_bound))
            if answer and (best is None or self.answer.objective_value < best[1]):
                best = values_of(built, self.answer), self.answer.objective_value
            if best is not None and best[1] <= self.bound_of_least:
                break
            if best is not None:
                built.model.clear_hints()
                add_hint(built, best[0])
        return None if best is None else (*best, self.bound_of_least)

    @property
    def ruled_out(self) -> bool:
        """Whether the last answer was that there is no solution."""
        return bool(self.answer.response_proto.status == cp_model.INFEASIBLE)

    def improved(self, problem: Problem, built: BlockModel, values: Values) -> Values:
        values, _, time = improved_in_pieces(problem, built, values, budgets.PIECES_SHARE * self.budget, self.bound)
        self.spent += time
        return values

    def raise_bound(self, bound: float) -> None:
        self.bound = max(self.bound, round(bound))

    def say(self, found: FoundPlan) -> FoundPlan:
        return dataclasses.replace(found, spent=self.spent, bound=min(self.bound, found.objective))


def solve_bands(
    problem: Problem, budget: float = budgets.DEFAULT_BUDGET, progress: Progress = lambda _: None
) -> FoundPlan:
    """Stage 1 alone. Raises NoBlock or BudgetSpent."""
    search, size = Search(budget, progress), len(problem.movements)
    for smaller, share in _first_lists(problem):
        progress(f"looking among {len(smaller.movements)} of {size} movements")
        found = _meets_all_bands(search, smaller, share)
        if found is not None:
            return search.say(found)
    progress("weighing aims that cannot all be met")
    start: FoundPlan | None = None
    for smaller, from_below in _lists_that_collide(problem):
        found = _best(search, smaller, None, from_below=from_below, than=start)
        if found is None or (from_below and found.objective > found.bound):
            continue  # a block found from below is useless unless it is optimal
        start = _close_in(search, problem, found, from_below=from_below)
        if start.objective <= search.bound:
            return search.say(start)
    if start is None:
        start = _any_block(search, problem)
        found = _meets_all_bands(search, open_library(problem), budgets.WHOLE_SHARE)
        if found is not None:
            return search.say(found)
    progress(f"looking in the whole library of {size} movements")
    return search.say(_whole_library(search, problem, start))


def _first_lists(problem: Problem) -> Iterator[tuple[Problem, float]]:
    """The libraries to search first, each made when needed, with its share of the budget."""
    liked = shortlist(problem, *budgets.LIKED)
    if len(liked.movements) < budgets.LARGE_MIX:
        yield liked, budgets.FIRST_SHARE
    else:  # mixing preference with what trains most gives shorter lists, which more often hold a block
        yield mixed(problem, budgets.SMALL_MIX, MILD_AND_DOING_MOST), budgets.SMALL_MIX_SHARE
        yield mixed(problem, budgets.LARGE_MIX, OF_ALL_SORTS), budgets.FIRST_SHARE
    yield shortlist(problem, *budgets.QUICKEST, quickest=True), budgets.QUICKEST_SHARE


def _lists_that_collide(problem: Problem) -> Iterator[tuple[Problem, bool]]:
    """The libraries to weigh shortfalls in, and whether from below, which is fastest if little has to be missed."""
    yield mixed(problem, budgets.SMALL_MIX, SPARING), True
    yield shortlist(problem, *budgets.LIKED), False
    yield shortlist(problem, *budgets.QUICKEST, quickest=True), False


def _meets_all_bands(search: Search, problem: Problem, share: float) -> FoundPlan | None:
    """A block without any shortfall, which nothing outside this library can beat. None is inconclusive."""
    rows = [dataclasses.replace(row, price=0) if row.price else row for row in gather_rows(problem)]
    often = [row for row in rows if not rule_named(row.rule).seldom_tight]
    values = _answer(search, problem, often, share)
    if values is not None and any(units_missed(row, values) for row in rows):
        values = _same_choice(search, problem, rows, values) or _answer(search, problem, rows, share, hint=values)
    return None if values is None else FoundPlan(problem, values, (), search.spent)


def _same_choice(
    search: Search, problem: Problem, rows: Sequence[Row], values: Mapping[Variable, int]
) -> Values | None:
    """The same movements on the same days with other sets: a far smaller question than the whole."""
    chosen = {key: (value, value) for key, value in values.items() if key.chooses}
    return _answer(search, problem, rows, budgets.SAME_CHOICE_SHARE, ranges={**variable_ranges(problem), **chosen})


def _answer(
    search: Search,
    problem: Problem,
    rows: Sequence[Row],
    share: float,
    hint: Mapping[Variable, int] | None = None,
    ranges: dict[Variable, tuple[int, int]] | None = None,
) -> Values | None:
    built = build_model(problem, rows, ranges=ranges)
    if hint is not None:
        add_hint(built, hint)
    return values_of(built, search.answer) if search.run(built.model, share) else None


def _best(
    search: Search,
    problem: Problem,
    hint: Mapping[Variable, int] | None,
    *,
    from_below: bool = False,
    share: float = budgets.SHORTLIST_SHARE,
    than: FoundPlan | None = None,
) -> FoundPlan | None:
    """The best block of this library within the share of the budget; ``bound`` is for this library alone.

    ``than``: only a block that misses less than this one is looked for.
    """
    share = budgets.BELOW_SHARE if from_below else share
    rows = gather_rows(problem)
    built = build_model(problem, rows)
    if hint is not None:
        add_hint(built, {key: hint.get(key, 0) for key in built.variables})
    built.model.minimize(built.penalty())
    if than is not None:
        built.model.add(built.penalty() < than.objective)
    least = search.least(built, share, from_below=from_below)
    if least is None:
        return None
    values, objective, bound = least
    if objective > max(bound, search.bound) and not from_below:
        values = search.improved(problem, built, values)
    return FoundPlan(problem, values, shortfalls(rows, values), search.spent, bound)


def _close_in(search: Search, problem: Problem, start: FoundPlan, *, from_below: bool) -> FoundPlan:
    """Improve bound and block in turn until they meet or the rounds are over."""
    whole = open_library(problem)
    for _ in range(budgets.ROUNDS):
        known = {movement.id for movement in start.problem.movements}
        used = _bound(search, whole, [row for row, _ in start.missed], of_bands=from_below)
        if start.objective <= search.bound or used <= known:
            break
        wider = only(problem, known | used)
        better = _best(search, wider, start.values, from_below=from_below, than=start)
        if better is None:
            break
        start = better
    return start


def _bound(search: Search, whole: Problem, missed: Sequence[Row], *, of_bands: bool) -> set[str]:
    """Raise the bound from bands of the missed rows' kinds alone; return the movements that the bound uses.

    ``of_bands``: a kind is what a band counts in any week (one tier, one quality), not all bands of a rule.
    """

    def kind(row: Row) -> object:
        return (row.rule, row.at._replace(week=None)) if of_bands else row.rule

    kinds = {kind(row) for row in missed}
    rows = [row for row in gather_rows(whole) if row.price == 0 or kind(row) in kinds]
    counted = {key.at.movement or "" for row in rows if row.price for _, key in row.terms if key.kind == "sets"}
    keep = of_movements(variable_ranges(whole), counted)
    built = build_model(whole, [row for row, _ in projected(rows, variable_ranges(whole), keep)], ranges=keep)
    built.model.minimize(built.penalty())
    if not search.run(built.model, budgets.BOUND_SHARE):
        return set()
    search.raise_bound(search.answer.best_objective_bound)
    return _movements_in(values_of(built, search.answer))


def _movements_in(values: Mapping[Variable, int]) -> set[str]:
    """The movements chosen for any day of any phase."""
    return {key.at.movement or "" for key, value in values.items() if value and key.kind == "in"}


def _whole_library(search: Search, problem: Problem, start: FoundPlan | None) -> FoundPlan:
    """The best block of the whole library; ``start`` where none misses less, since its movements fit the athlete best.

    Raises BudgetSpent where there is neither.
    """
    hint = start.values if start else None
    found = _best(search, open_library(problem), hint, share=budgets.BEST_OF_ALL_SHARE, than=start)
    if found is not None:
        search.raise_bound(found.bound)
        return found
    if start is None:
        raise BudgetSpent
    search.raise_bound(start.objective if search.ruled_out else search.bound_of_least)
    return start


def _any_block(search: Search, problem: Problem) -> FoundPlan | None:
    """Without a block so far, ask for the hard rules alone, part by part, which gives a yes or a no much sooner."""
    search.progress("asking whether any block is possible")
    rows = [row for row in gather_rows(problem) if row.price == 0]
    found = verdict(problem, rows, budgets.HARD_SHARE * search.budget)
    if found.part is not None:
        raise NoBlock(problem, rows, found.part)
    if found.point is None:
        return None
    used = _movements_in(found.point)
    smaller = only(problem, used | {movement.id for movement in shortlist(problem, *budgets.LIKED).movements})
    values = {key: found.point.get(key, low) for key, (low, _) in variable_ranges(smaller).items()}
    start = FoundPlan(smaller, values, shortfalls(gather_rows(smaller), values), search.spent)
    return _best(search, smaller, values) or start
