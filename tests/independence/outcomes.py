"""What becomes of a drawn athlete: a block with a clean audit, a true and minimal refusal, or a spent budget."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from planner.audit import audit
from planner.domain.block import Block, Proof
from planner.domain.block_parts import Reference
from planner.domain.findings import UserError
from planner.domain.gap_record import Gap
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows, rule_by_id
from planner.rules.rule import Row
from planner.solve.bands import solve_bands
from planner.solve.conflict import coarse, find_conflict
from planner.solve.found_plan import BudgetSpent, FoundPlan, NoBlock
from planner.solve.make_block import References, make_block
from planner.solve.stages import Solution
from tests.independence.drawn import drawn
from tests.independence.highs import FEASIBLE, INFEASIBLE, can_hold
from tests.independence.tight import tight_rules

BUDGET = 8.0  # deterministic time for a drawn athlete
HIGHS_LIMIT_s = 20.0
NOWHERE = Reference(path="x", sha256="0")
# block; refused: by the input, with findings; no-block: by the rules, with a conflict; unconfirmed: no block, and the
# budget did not confirm the conflict; budget: neither a block nor a no.
KINDS = ("block", "refused", "no-block", "unconfirmed", "budget")


@dataclass
class Outcome:
    """``faults`` are what must not be; ``unsure`` what the second solver could not say in its time."""

    kind: str
    faults: list[str] = field(default_factory=list)
    unsure: list[str] = field(default_factory=list)
    tight: list[str] = field(default_factory=list)
    conflict: list[str] = field(default_factory=list)
    minimal: bool = False
    proved: bool = False
    shortfall: int = 0


def outcome(seed: int) -> Outcome:
    """Plan the athlete of ``seed`` by its bands, and hold what comes of it to what it claims."""
    try:
        result, problem = estimate_and_problem(drawn(seed).inputs)
    except UserError as error:
        return Outcome("refused", faults=[] if error.findings else ["refused without a finding"])
    try:
        return _of_block(problem, solve_bands(problem, BUDGET), result.gap)
    except NoBlock as no_block:
        return of_refusal(no_block.problem)
    except BudgetSpent:
        return Outcome("budget")


def _of_block(problem: Problem, found: FoundPlan, gap: Gap) -> Outcome:
    block = make_block(_as_solution(found), gap, References(NOWHERE, NOWHERE, NOWHERE, NOWHERE))
    values = {key: 0 for row in gather_rows(problem) for _, key in row.terms} | found.values
    return Outcome(
        "block",
        faults=[breach.sentence for breach in audit(block, problem) if breach.hard] + _miscounted(block, found),
        tight=sorted(tight_rules(gather_rows(problem), values)),
        proved=found.objective <= found.bound,
        shortfall=found.objective,
    )


def _as_solution(found: FoundPlan) -> Solution:
    proof = Proof(status="optimal" if found.objective <= found.bound else "feasible", scope="library", stages=())
    return Solution(found.problem, found.values, found.missed, proof, 0.0)


def _miscounted(block: Block, found: FoundPlan) -> list[str]:
    """The solver's shortfalls, in the unit of each rule, and those that the audits count in the block: the same."""
    by_rows: Counter[str] = Counter()
    for row, units in found.missed:
        by_rows[row.rule] += units
    by_audit: Counter[str] = Counter()
    for shortfall in block.shortfalls:
        by_audit[shortfall.rule] += round(shortfall.amount * _row_units(shortfall.rule))
    return [
        f"{rule}: the rows miss {by_rows[rule]}, the audit counts {by_audit[rule]}"
        for rule in sorted({*by_rows, *by_audit})
        if by_rows[rule] != by_audit[rule]
    ]


def _row_units(rule_id: str) -> int:
    rule = rule_by_id(rule_id)
    assert rule is not None
    return rule.row_units


def of_refusal(problem: Problem) -> Outcome:
    """A refusal held to what it claims: the conflict is true, and minimal where it says so."""
    rows = gather_rows(problem)
    conflict = find_conflict(problem, rows)
    if conflict is None:
        return Outcome("unconfirmed")
    found = Outcome("no-block", conflict=conflict.rules, minimal=conflict.minimal)
    if not conflict.rules:
        found.faults.append("the conflict names no rule")
    of_structure = all(_is_structural(row) for row in conflict.rows)
    frame = [row for row in rows if row.price == 0 and _is_structural(row) and not of_structure]
    _check_true(problem, frame, conflict.rows, found)
    if conflict.minimal:
        _check_minimal(problem, frame, conflict.rows, found)
    return found


def _is_structural(row: Row) -> bool:
    rule = rule_by_id(row.rule)
    return rule is not None and rule.structural


def _check_true(problem: Problem, frame: Sequence[Row], rows: Sequence[Row], found: Outcome) -> None:
    """The conflict's rows, beside those that make a block what it is, cannot hold: HiGHS finds so too."""
    answer = can_hold(problem, [*frame, *rows], time_limit_s=HIGHS_LIMIT_s)
    if answer == FEASIBLE:
        found.faults.append(f"HiGHS holds {found.conflict} together")
    elif answer != INFEASIBLE:
        found.unsure.append("whether the conflict is true")


def _check_minimal(problem: Problem, frame: Sequence[Row], rows: Sequence[Row], found: Outcome) -> None:
    """Without any one rule's part in a week, day or movement the rest can hold: HiGHS finds so too."""
    groups: Mapping[tuple[str, str], None] = dict.fromkeys((row.rule, coarse(row)) for row in rows)
    for group in groups:
        rest = [row for row in rows if (row.rule, coarse(row)) != group]
        answer = can_hold(problem, [*frame, *rest], time_limit_s=HIGHS_LIMIT_s)
        if answer == INFEASIBLE:
            found.faults.append(f"the conflict holds without {' '.join(group)}")
        elif answer != FEASIBLE:
            found.unsure.append(f"whether {' '.join(group)} is needed")
