"""What becomes of a drawn athlete: a block with a clean audit, a true and minimal refusal, or a spent budget."""

from __future__ import annotations

from dataclasses import dataclass, field

from planner.audit import audit
from planner.domain.block import Gap, Reference
from planner.domain.findings import UserError
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.base import Row
from planner.solve.block import References, make_block
from planner.solve.conflict import coarse, find_conflict
from planner.solve.matrix import gather_rows
from planner.solve.stages import BudgetSpent, Found, NoBlock, solve, solve_bands
from tests.independence.drawn import drawn_athlete, inputs
from tests.independence.highs import INFEASIBLE, solve_with_highs

BUDGET = 16.0  # deterministic time for a drawn athlete
HIGHS_LIMIT_s = 30.0
NOWHERE = Reference(path="x", sha256="0")


@dataclass
class Outcome:
    """``kind``: block, refused (by the input), no-block, unconfirmed or budget; ``faults``: what must not be."""

    kind: str
    faults: list[str] = field(default_factory=list)
    rules: list[str] = field(default_factory=list)
    proved: bool = False


def outcome(seed: int, *, full: bool = False) -> Outcome:
    """Plan the athlete of ``seed``. ``full``: with stage 2 as well."""
    data, template = drawn_athlete(seed)
    try:
        result, problem = estimate_and_problem(inputs(data, template))
    except UserError as error:
        return Outcome("refused", [] if error.findings else ["refused without a finding"])
    try:
        found = solve_bands(problem, BUDGET) if not full else None
        return _block(problem, found, result.gap)
    except NoBlock as no_block:
        return _refusal(no_block.problem)
    except BudgetSpent:
        return Outcome("budget")


def _block(problem: Problem, found: Found | None, gap: Gap) -> Outcome:
    solution = solve(problem, BUDGET) if found is None else _as_solution(found)
    block = make_block(solution, gap, References(NOWHERE, NOWHERE, NOWHERE, NOWHERE))
    faults = [breach.sentence for breach in audit(block, problem) if breach.hard]
    return Outcome("block", faults, proved=solution.proof.status == "optimal")


def _as_solution(found: Found):  # type: ignore[no-untyped-def]
    from planner.domain.block import Proof
    from planner.solve.stages import Solution

    status = "optimal" if found.objective <= found.bound else "feasible"
    return Solution(found.problem, found.values, found.missed, Proof(status=status, scope="library", stages=()), 0.0)


def _refusal(problem: Problem) -> Outcome:
    rows = gather_rows(problem)
    conflict = find_conflict(problem, rows)
    if conflict is None:
        return Outcome("unconfirmed")
    frame = [row for row in rows if row.price == 0 and row.rule in ("continuity", "session-shape")]
    faults = []
    if solve_with_highs(problem, frame + list(conflict.rows), time_limit_s=HIGHS_LIMIT_s).status != INFEASIBLE:
        faults.append(f"HiGHS does not find {conflict.rules} in conflict")
    if conflict.minimal:
        faults += _not_minimal(problem, frame, list(conflict.rows))
    return Outcome("no-block", faults, conflict.rules)


def _not_minimal(problem: Problem, frame: list[Row], rows: list[Row]) -> list[str]:
    """Groups of the conflict without which the rest is still infeasible, by HiGHS."""
    faults = []
    for group in dict.fromkeys((row.rule, coarse(row)) for row in rows):
        rest = [row for row in rows if (row.rule, coarse(row)) != group]
        if solve_with_highs(problem, frame + rest, time_limit_s=HIGHS_LIMIT_s).status == INFEASIBLE:
            faults.append(f"the conflict holds without {group}")
    return faults
