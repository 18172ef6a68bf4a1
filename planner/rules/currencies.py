"""What a block is counted in: how the solver counts a set, how the audit counts a week, in which words, band and price.

The two ways of counting share nothing, so that each catches the other's mistakes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planner.domain.address import Address
from planner.domain.template_prices import Prices
from planner.domain.terms import LIFT_QUALITIES, QUALITY_NAMES, TIERS, Leg, Quality, Tier
from planner.problem import per_set
from planner.problem.model import Problem, Range, WeekBands
from planner.problem.per_set import PerSet
from planner.problem.variable import Term
from planner.rules.recount import CountedWeek


@dataclass(frozen=True)
class Currency:
    """``of`` and ``leg``: how addresses tell it from others. ``whole``: how many of the solver's units make one.

    ``band``, ``floor``: what a week aims at, and the least it holds. ``price``: what a unit outside the band costs.
    """

    words: str
    of: str
    per_set: PerSet
    done: Callable[[CountedWeek], float]
    whole: int = 1
    leg: Leg | None = None
    band: Callable[[WeekBands], Range] | None = None
    price: Callable[[Prices], int] | None = None
    floor: Callable[[WeekBands], int] | None = None

    def at(self, week: int) -> Address:
        return Address(week=week, of=self.of, leg=self.leg)

    def terms(self, problem: Problem, week: int) -> list[Term]:
        return problem.week_terms(week, self.per_set)


def tier_contacts(tier: Tier) -> Currency:
    return Currency(
        f"{tier}-tier contacts",
        tier,
        per_set.tier_contacts(tier),
        lambda week: week.tier_contacts(tier),
        band=lambda bands: bands.tiers[tier],
        price=lambda prices: prices.high_contact if tier == "high" else prices.contact,
    )


def leg_contacts(tier: Tier, leg: Leg) -> Currency:
    """Landings of one leg: all of a two-leg jump's, half of one done on each leg in turn."""
    return Currency(
        f"{tier}-tier contacts on the {leg} leg",
        tier,
        per_set.leg_contacts(tier, leg),
        lambda week: week.leg_tier_contacts(tier, leg),
        leg=leg,
    )


def quality_sets(quality: Quality) -> Currency:
    """Working sets as they are credited to a quality."""
    return Currency(
        f"sets of {QUALITY_NAMES[quality]}",
        quality,
        per_set.quarter_sets(quality),
        lambda week: week.quality_sets(quality),
        whole=4,
        band=lambda bands: bands.quarter_sets[quality],
        price=lambda prices: prices.quarter_set,
        floor=lambda bands: bands.floor_quarter_sets[quality],
    )


SETS = Currency("working sets", "working sets", per_set.working_sets, lambda week: week.working_sets)
CONTACTS = Currency(
    "contacts",
    "contacts",
    per_set.contacts,
    lambda week: week.contacts,
    band=lambda bands: bands.contacts,
    price=lambda prices: prices.contact,
    floor=lambda bands: bands.floor_contacts,
)
SPRINTS = Currency(
    "sprints",
    "sprints",
    per_set.sprints,
    lambda week: week.sprint_efforts,
    band=lambda bands: bands.sprints,
    price=lambda prices: prices.sprint,
)
APPROACH = Currency(
    "maximal approach jumps",
    "approach",
    per_set.approach_contacts,
    lambda week: week.approach_contacts,
    band=lambda bands: bands.approach,
    price=lambda prices: prices.high_contact,
)
QUALITY_SETS = tuple(quality_sets(quality) for quality in LIFT_QUALITIES)
TIER_CONTACTS = tuple(tier_contacts(tier) for tier in TIERS)
HIGH_TIER = tier_contacts("high")
# What deload, taper and start limit; a light week may hold none at all of the last two.
WEEKLY = (SETS, CONTACTS, HIGH_TIER, SPRINTS)
MAY_VANISH = (HIGH_TIER, SPRINTS)
