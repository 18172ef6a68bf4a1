"""The summary of a new block: what it is, whether it is proved optimal, what it misses."""

from __future__ import annotations

from planner.domain.block import Block, Proof
from planner.report.terminal import wrap
from planner.units import counted

MOST_SHORTFALLS = 8  # more than this are only counted; the block lists them all


def plan_text(block: Block, movements: int) -> str:
    """A few lines on a new block. ``movements``: how many the library has."""
    parts = [wrap(_what(block)), wrap(proof_sentence(block, movements))]
    for shortfall in block.shortfalls[:MOST_SHORTFALLS]:
        parts.append(wrap(shortfall.sentence, "  "))
    if len(block.shortfalls) > MOST_SHORTFALLS:
        parts.append(f"  and {len(block.shortfalls) - MOST_SHORTFALLS} more, all listed in the block")
    return "\n".join(parts) + "\n"


def _what(block: Block) -> str:
    sessions = block.sessions
    first, last = sessions[0].date, sessions[-1].date
    return (
        f"{block.for_athlete.name}: {block.template_name}, {len(block.weeks)} weeks and {len(sessions)} sessions from "
        f"{first:%a} {first.day} {first:%b %Y} to the test on {last:%a} {last.day} {last:%b}."
    )


def proof_sentence(block: Block, movements: int) -> str:
    """Whether the aims are met, and whether the block is proved optimal."""
    missed = len(block.shortfalls)
    met = f"{counted(missed, 'weekly range')} missed" if missed else "All weekly ranges met"
    return f"{met}; {_proved(block.proof, movements, bool(block.shortfalls))}."


def _proved(proof: Proof, movements: int, short: bool) -> str:
    library = f"the whole library of {movements} movements"
    if proof.status == "optimal" and proof.scope == "library":
        return f"proved over {library}{' that no block comes closer' if short else ''}"
    bands = next((stage for stage in proof.stages if stage.name == "bands"), None)
    distance = ""
    if bands is not None and bands.objective is not None and bands.bound is not None:
        distance = f" ({bands.objective:g} points over or under, at best {bands.bound:g})"
    unproved = f"it is not proved that no block comes closer{distance}"
    return f"every hard rule holds, but {unproved}; --budget gives the search more time"
