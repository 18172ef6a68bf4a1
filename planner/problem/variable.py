"""The variables of a block, which the solver decides, each with its address."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from planner.domain.address import Address

# takes: a day has a session shape; in: a phase has a movement on a day; sets: its sets in a week; hard: a day is hard;
# gives: how far a rule gives way, while the cheapest change is sought.
Kind = Literal["takes", "in", "sets", "hard", "gives"]


@dataclass(frozen=True, eq=False, slots=True)
class Variable:
    """One unknown of the block. Each has a single object, so that it can be compared and looked up by identity."""

    kind: Kind
    at: Address
    name: str

    def __str__(self) -> str:
        return self.name

    @property
    def chooses(self) -> bool:
        """Whether it decides what is done where, not how much."""
        return self.kind in ("in", "takes")


Term = tuple[int, Variable]
Values = dict[Variable, int]


@cache
def variable(kind: Kind, at: Address, owner: str = "") -> Variable:
    """The variable of this kind at this address; ``owner``: the rule that a ``gives`` belongs to."""
    return Variable(kind, at, "/".join(part for part in (kind, owner, str(at)) if part))


@cache
def sets_key(week: int, slot: int, movement: str) -> Variable:
    return variable("sets", Address(week=week, slot=slot, movement=movement))


@cache
def in_key(phase: str, slot: int, movement: str) -> Variable:
    return variable("in", Address(phase=phase, slot=slot, movement=movement))


@cache
def hard_key(week: int, slot: int) -> Variable:
    return variable("hard", Address(week=week, slot=slot))


@cache
def takes_key(slot: int, shape: str) -> Variable:
    return variable("takes", Address(slot=slot, of=shape))
