"""The totals of a session and of a week, counted from the items on the cards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planner.domain.block import AthleteLine, Item, Week
from planner.domain.terms import TIERS, Tier
from planner.units import format_run

# Lifts and holds. Jumps count as contacts and sprints as efforts, not as working sets.
LIFTING_PARTS = frozenset({"main-lift", "one-leg", "hamstring", "calf", "trunk"})


@dataclass(frozen=True)
class Tally:
    contacts: dict[Tier, int]
    sprint_efforts: int
    sprint_m: float
    working_sets: int

    @property
    def all_contacts(self) -> int:
        return sum(self.contacts.values())


def is_working_set(item: Item) -> bool:
    return item.part in LIFTING_PARTS and item.tier is None


def tally(items: Iterable[Item]) -> Tally:
    """Add up items: contacts by tier (landings, both legs), sprint efforts and metres, working sets."""
    contacts: dict[Tier, int] = dict.fromkeys(TIERS, 0)
    efforts, metres, sets = 0, 0.0, 0
    for item in items:
        if item.tier is not None:
            contacts[item.tier] += item.contacts
        if item.part == "sprint":
            done = item.sets * (item.reps or 1)
            efforts += done
            metres += done * (item.distance_m or 0.0)
        if is_working_set(item):
            sets += item.sets
    return Tally(contacts, efforts, metres, sets)


def runs(items: Iterable[Item], athlete: AthleteLine) -> str:
    """The distance of all sprints: what the card prints of each, added up."""
    each = [
        (item.sets * (item.reps or 1), format_run(item.distance_m or 0.0, athlete.length_unit))
        for item in items
        if item.part == "sprint"
    ]
    unit = each[0][1].rpartition(" ")[2] if each else ""
    return f"{sum(times * float(run.split()[0]) for times, run in each):g} {unit}"


def week_tally(week: Week) -> Tally:
    return tally(item for session in week.sessions for item in session.items)
