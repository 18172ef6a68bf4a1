"""A wall sheet for a day and a hall: quarters of an hour down, stations across, names in the cells."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.cards.wide_table import WideTable
from planner.starts.timed_session import clock_at

_QUARTER_min = 15
_TIME_SHARE = 0.05


@dataclass(frozen=True)
class Stay:
    """Somebody is at a station from one minute of the day to another (not included)."""

    name: str
    station: str
    first: float
    end: float


def wall_table(
    title: str, subtitle: str, stations: Sequence[str], starts: Sequence[tuple[int, str]], stays: Sequence[Stay]
) -> WideTable:
    """Rows from the first start to the last end. ``starts``: names by the minute of the day at which they start.

    ``stations``: the columns, in order.
    """
    first = min(minute for minute, _ in starts) // _QUARTER_min * _QUARTER_min
    last = math.ceil(max(stay.end for stay in stays)) if stays else first + 1
    share = (1 - _TIME_SHARE) / (1 + len(stations))
    rows = [
        [clock_at(at), _begun(starts, at), *(_there(stays, station, at) for station in stations)]
        for at in range(first, last, _QUARTER_min)
    ]
    heads = ["", "starts", *stations]
    return WideTable(title, subtitle, heads, [_TIME_SHARE, *[share] * (len(heads) - 1)], rows)


def _begun(starts: Sequence[tuple[int, str]], at: int) -> str:
    """Who starts in a quarter of an hour; a start inside it is told to the minute."""
    begun = [(minute, name) for minute, name in starts if at <= minute < at + _QUARTER_min]
    return _each_once([name if minute == at else f"{name} {clock_at(minute)}" for minute, name in begun])


def _there(stays: Sequence[Stay], station: str, at: int) -> str:
    """Who is at a station in any part of a quarter of an hour."""
    own = (stay for stay in stays if stay.station == station)
    return _each_once([stay.name for stay in own if stay.first < at + _QUARTER_min and stay.end > at])


def _each_once(names: Sequence[str]) -> str:
    return ", ".join(dict.fromkeys(names))
