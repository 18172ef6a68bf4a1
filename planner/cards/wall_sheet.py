"""A wall sheet for a day and a hall: quarters of an hour down, stations across, names in the cells."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planner.cards.wide_table import WideTable

_QUARTER_min = 15
_TIME_SHARE = 0.05


@dataclass(frozen=True)
class Stay:
    """Somebody is at a station from one minute of the day to another (not included)."""

    name: str
    station: str
    first: float
    end: float


@dataclass(frozen=True)
class WallSheet:
    """``starts``: names by the minute of the day at which they start. ``stations``: the columns, in order."""

    title: str
    subtitle: str
    stations: Sequence[str]
    starts: Sequence[tuple[int, str]]
    stays: Sequence[Stay]

    def table(self) -> WideTable:
        """Rows from the first start to the last end."""
        first = min(minute for minute, _ in self.starts) // _QUARTER_min * _QUARTER_min
        last = int(-(-max(stay.end for stay in self.stays) // 1)) if self.stays else first + 1
        share = (1 - _TIME_SHARE) / (1 + len(self.stations))
        rows = [[_clock(at), *self._names(at)] for at in range(first, last, _QUARTER_min)]
        heads = ["", "starts", *self.stations]
        return WideTable(self.title, self.subtitle, heads, [_TIME_SHARE, *[share] * (len(heads) - 1)], rows)

    def _names(self, at: int) -> Iterator[str]:
        """Names of a quarter of an hour by column; a start inside it is told to the minute."""
        until = at + _QUARTER_min
        begun = [(minute, name) for minute, name in self.starts if at <= minute < until]
        yield _listed([name if minute == at else f"{name} {_clock(minute)}" for minute, name in begun])
        for station in self.stations:
            yield _listed(
                [one.name for one in self.stays if one.station == station and one.first < until and one.end > at]
            )


def _listed(names: Sequence[str]) -> str:
    return ", ".join(dict.fromkeys(names))


def _clock(minute: float) -> str:
    whole = int(minute)
    return f"{whole // 60:02d}:{whole % 60:02d}"
