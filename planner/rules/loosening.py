"""What a coach could change so that a rule gives way: the offer, and the steps of it that were taken."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.address import Address


@dataclass(frozen=True)
class Loosening:
    """An offer of a rule: at ``at`` it gives way by up to ``most`` steps, at ``price`` points each.

    ``size``: how far one step moves the row's limit, in the row's whole numbers.
    """

    rule: str
    at: Address
    size: int
    price: int
    most: int = 1


@dataclass(frozen=True)
class Step:
    """A loosening used ``amount`` times: minutes, quarter sets, contacts, or once for a thing that is there or not."""

    rule: str
    at: Address
    amount: int
