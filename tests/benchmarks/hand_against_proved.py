"""A block filled in by hand beside the proved one, for ten athletes: hard rules broken, and what its misses cost.

Both are judged alike: the audit counts the hard rules broken, the soft rows price the shortfalls.
Run: python -m tests.benchmarks.hand_against_proved
"""

from __future__ import annotations

import statistics
from collections import Counter

from planner.audit import audit
from planner.domain.block import Block, Proof
from planner.domain.block_parts import Reference
from planner.domain.gap_record import Gap
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.from_block import block_values
from planner.solve.make_block import References, make_block
from planner.solve.shortfalls import shortfalls
from planner.solve.stages import Solution
from tests.benchmarks.by_hand import by_hand
from tests.benchmarks.people import healthy_adults
from tests.independence.drawn import inputs

NOWHERE = Reference(path="x", sha256="0")


def as_block(problem: Problem, values: dict[str, int], gap: Gap) -> Block:
    unproved = Solution(problem, values, (), Proof(status="feasible", scope="library", stages=()), 0.0)
    return make_block(unproved, gap, References(NOWHERE, NOWHERE, NOWHERE, NOWHERE))


def price(problem: Problem, block: Block) -> int:
    """The priced shortfall of a block by the soft rows of the whole library."""
    missed = shortfalls(gather_rows(problem), block_values(block, problem))
    return sum(row.price * units for row, units in missed)


def broken(problem: Problem, block: Block) -> Counter[str]:
    """How often each hard rule is broken."""
    return Counter(breach.rule for breach in audit(block, problem) if breach.hard)


def main() -> None:
    prices, breaches = [], []
    for name, lines in healthy_adults():
        result, problem = estimate_and_problem(inputs(lines, "eight-week"))
        hand = as_block(problem, by_hand(problem), result.gap)
        found = solve_bands(problem)
        proved = as_block(found.problem, found.values, result.gap)
        rules, left = broken(problem, hand), broken(problem, proved).total()
        prices.append(price(problem, hand))
        breaches.append(rules.total())
        most = ", ".join(f"{rule} {times}" for rule, times in rules.most_common(4))
        print(
            f"{name:16s} by hand: shortfall {prices[-1]:4d}, {rules.total():3d} hard rules broken ({most}); "
            f"planned: shortfall {price(problem, proved)} (bound {found.bound}), {left} broken",
            flush=True,
        )
    print(f"median by hand: shortfall {statistics.median(prices):g}, {statistics.median(breaches):g} hard rules broken")


if __name__ == "__main__":
    main()
