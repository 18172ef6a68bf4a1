"""After days lost: a light first session (the least of every wave, jumps a tier down), and after more an easy week."""

from __future__ import annotations

from collections.abc import Collection, Mapping
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


def with_easy_weeks(entries: Entries, weeks: Collection[int], share: float) -> dict[tuple[int, int], tuple[Entry, ...]]:
    """The entries, in these weeks with no more than a share of the sets, rounded down, but one set at least."""
    found = dict(entries)
    for day in found:
        if day[0] in weeks:
            found[day] = tuple(replace(entry, dosage=_at_most(entry.dosage, share)) for entry in found[day])
    return found


def _at_most(dosage: Dosage, share: float) -> Dosage:
    most = max(1, int(share * dosage.high_sets)) if dosage.high_sets else 0
    return replace(dosage, low_sets=min(dosage.low_sets, most), high_sets=most)


def _light(dosage: Dosage, highest: Tier) -> Dosage:
    closed = dosage.tier == highest and highest != TIERS[0]
    most = 0 if closed else min(dosage.high_sets, max(dosage.low_sets, 1))
    return replace(dosage, low_sets=min(dosage.low_sets, most), high_sets=most)
