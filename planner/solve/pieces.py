"""A better block from a good one, a piece at a time: the choices of a piece are free, all others are held.

A whole block has some thousand choices, and the solver may spend its time far from a good one. A piece has some
dozens: it is settled in a moment. Sets are always free, so that a new movement can take over those of another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from itertools import combinations

from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.solve.budgets import PIECE
from planner.solve.cp_model import BlockModel, found_any, solver, spent

Piece = Callable[[Variable], bool]


def improved_in_pieces(
    problem: Problem,
    built: BlockModel,
    values: Values,
    budget: float,
    enough: float = float("-inf"),
    piece: float = PIECE,
) -> tuple[Values, float | None, float]:
    """Values whose objective is no worse, that objective, and the deterministic time; no objective: the old values.

    Ends where no piece gives a better block, where the objective is ``enough``, or where the budget is spent.
    ``built`` has its objective set; ``values`` keep its rows; ``piece`` is the budget of one.
    """
    pieces = list(_pieces(problem))
    best, time, objective = _settled(built, values, lambda _: False, piece)
    if best is None:
        return values, None, time
    since, turn = 0, 0
    while since < len(pieces) and time < budget and objective > enough:
        found, took, reached = _settled(built, best, pieces[turn % len(pieces)], piece)
        time, turn, since = time + took, turn + 1, since + 1
        if found is not None and reached < objective:
            best, objective, since = found, reached, 0
    return best, objective, time


def _settled(
    built: BlockModel, values: Mapping[Variable, int], piece: Piece, budget: float
) -> tuple[Values | None, float, float]:
    """The best values with all choices outside the piece as they are, the time, and the objective."""
    model = built.model.clone()
    model.clear_hints()
    proto = model.proto.variables
    for key, variable in built.variables.items():
        if key.chooses and not piece(key):
            domain = proto[variable.index].domain
            domain.clear()
            domain.extend([values[key], values[key]])
        model.add_hint(model.get_int_var_from_proto_index(variable.index), values[key])
    solved = solver(budget)
    solved.parameters.max_presolve_iterations = (
        1  # most is held: a second look at the rows takes longer than the search
    )
    if not found_any(solved.solve(model)):
        return None, spent(solved), 0.0
    solution = solved.response_proto.solution
    found = {key: int(solution[variable.index]) for key, variable in built.variables.items()}
    return found, spent(solved), solved.objective_value


def _pieces(problem: Problem) -> Iterator[Piece]:
    """A phase; a kind of work; a day; two days of a phase; two days in all phases, whose shapes may be swapped."""
    days = [slot.number for slot in problem.slots]
    yield from (_days_of(phase.id, days) for phase in problem.phases)
    for part in sorted({movement.part for movement in problem.movements}):
        yield _movements({movement.id for movement in problem.movements if movement.part == part})
    yield from (_days_of(None, (day,)) for day in days)
    for phase in (*(phase.id for phase in problem.phases), None):
        yield from (_days_of(phase, pair) for pair in combinations(days, 2))


def _days_of(phase: str | None, days: Sequence[int]) -> Piece:
    """``phase``: None for all."""
    return lambda key: key.at.slot in days and phase in (None, key.at.phase)


def _movements(ids: Set[str]) -> Piece:
    return lambda key: key.at.movement in ids
