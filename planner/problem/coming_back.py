"""The first session after days lost: the least of every wave, and jumps a tier down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.domain.template_limits import ComingBack
from planner.domain.terms import TIERS, Tier
from planner.problem.block_calendar import BlockCalendar
from planner.problem.model import Dosage, Entry
from planner.problem.revised import Since

Entries = Mapping[tuple[int, int], tuple[Entry, ...]]


def light_day(days: BlockCalendar, since: Since | None, limits: ComingBack | None) -> tuple[int, int] | None:
    """(week, slot) of the first session back, where more days were lost than an athlete simply goes on after."""
    if since is None or limits is None or since.days_lost <= limits.go_on_up_to_days:
        return None
    to_come = [key for key in days.programmed_days() if not days.is_past(*key)]
    return to_come[0] if to_come else None


def with_light_day(
    entries: Entries, day: tuple[int, int] | None, highest: Tier
) -> dict[tuple[int, int], tuple[Entry, ...]]:
    """The entries, on that day with no more than the least sets, none of them of the level's highest tier."""
    found = dict(entries)
    if day is not None:
        found[day] = tuple(replace(entry, dosage=_light(entry.dosage, highest)) for entry in entries[day])
    return found


def _light(dosage: Dosage, highest: Tier) -> Dosage:
    closed = dosage.tier == highest and highest != TIERS[0]
    most = 0 if closed else min(dosage.high_sets, max(dosage.low_sets, 1))
    return replace(dosage, low_sets=min(dosage.low_sets, most), high_sets=most)
