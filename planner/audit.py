"""The audit: a finished block against every rule, counted from the block alone, without a solver."""

from __future__ import annotations

from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.problem.model import RETEST, Problem
from planner.rules.as_done import is_over, judge
from planner.rules.consistency import inconsistencies
from planner.rules.recount import count_block
from planner.rules.registry import all_rules
from planner.rules.rule import Breach


def audit(block: Block, problem: Problem) -> list[Breach]:
    """Every place where the block breaks a rule, hard rules first; breaches of soft rules are allowed shortfalls.

    Of a revised block only what is still to come is judged.

    Raises KeyError for a movement that the library does not have; ``unknown_movements`` names these.
    """
    found = judge(block, problem, all_rules())
    figures = inconsistencies(count_block(block, problem))
    found += [breach for breach in figures if not is_over(block, problem, breach.at)]
    return sorted(found, key=lambda breach: (not breach.hard, breach.rule, breach.sentence))


def unknown_movements(block: Block, problem: Problem) -> list[tuple[str, str]]:
    """(session id, movement id) of items whose movement is not in the library."""
    return [
        (session.id, item.movement)
        for session in block.sessions
        for item in session.items
        if item.movement != RETEST and item.movement not in problem.library
    ]


def breach_finding(breach: Breach, path: str, line: int = 0) -> Finding:
    """A breach as a finding: hard rules are errors, weekly ranges notes."""
    return Finding(
        path=path,
        line=line,
        column=1 if line else 0,
        code=breach.rule,
        message=breach.sentence,
        hint=f"see jumpblock rules {breach.rule}" if breach.hard else "allowed: a weekly range is an aim",
        level="error" if breach.hard else "note",
        at=breach.at,
    )
