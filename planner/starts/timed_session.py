"""A session in time: from which minute to which each of its items lasts, in the card's order or in another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planner.domain.block import Item, Session
from planner.domain.movement import Movement
from planner.domain.training_squad import Hall, Station

STEP_min = 5  # starts and the counting of who is where
LIFTED = ("main-lift", "one-leg", "hamstring", "calf")


def clock_at(minute: float) -> str:
    """``16:30``: a minute of the day."""
    return f"{int(minute) // 60:02d}:{int(minute) % 60:02d}"


@dataclass(frozen=True)
class TimedItem:
    """``start`` and ``end``: minutes from the session's start. ``load_kg``: 0 where nothing is loaded."""

    item: str
    name: str
    part: str
    equipment: tuple[str, ...]
    high_tier: bool
    load_kg: float
    start: float
    end: float

    @property
    def steps(self) -> range:
        """Steps of five minutes from the session's start that it touches."""
        return range(int(self.start // STEP_min), -int(-self.end // STEP_min))


@dataclass(frozen=True)
class TimedSession:
    """``orders``: its items in the card's order, then in every other order that the session's shape allows."""

    athlete: str
    name: str
    session: str
    minutes: int
    orders: tuple[tuple[TimedItem, ...], ...]

    @property
    def steps(self) -> int:
        return -(-self.minutes // STEP_min)


def timed_session(athlete: str, name: str, session: Session, movements: Mapping[str, Movement]) -> TimedSession:
    """Minutes of each item by its sets, working time and rests; warm-up sets of lifts are what is left of the whole."""
    items = [item for item in session.items if item.sets > 0]
    seconds = [_seconds(item, movements.get(item.movement)) for item in items]
    left_s = 60 * (session.minutes - session.warm_up_minutes) - sum(seconds)
    ramped = [n for n, item in enumerate(items) if item.part in LIFTED and item.load_kg] or list(range(len(items)))
    if left_s >= 0:
        seconds = [one + (left_s / len(ramped) if n in ramped else 0) for n, one in enumerate(seconds)]
    elif sum(seconds) > 0:  # a session edited by hand: the card's own minutes count
        whole_s = 60 * max(0, session.minutes - session.warm_up_minutes)
        seconds = [one * whole_s / sum(seconds) for one in seconds]
    orders = [
        tuple(_laid_out([items[n] for n in order], [seconds[n] for n in order], session.warm_up_minutes, movements))
        for order in _orders([item.part for item in items])
    ]
    return TimedSession(athlete, name, session.id, session.minutes, tuple(orders))


def _seconds(item: Item, movement: Movement | None) -> float:
    work = movement.dose.set_time if movement is not None else float(item.hold_s or 20)
    one_leg = movement is not None and movement.legs == "one"
    sets = item.sets + (1 if item.extra_set else 0)
    return sets * (work * (2 if item.side == "each" and one_leg else 1) + (item.rest_s or 0))


def _orders(parts: Sequence[str]) -> list[list[int]]:
    """The card's order, and those with two neighbours of one part changed, since a shape orders only the parts."""
    first = list(range(len(parts)))
    found = [first]
    for n in range(len(parts) - 1):
        if parts[n] == parts[n + 1]:
            found.append([*first[:n], n + 1, n, *first[n + 2 :]])
    return found


def _laid_out(
    items: Sequence[Item], seconds: Sequence[float], warm_up_minutes: int, movements: Mapping[str, Movement]
) -> Iterator[TimedItem]:
    at = float(warm_up_minutes)
    for item, one in zip(items, seconds, strict=True):
        movement = movements.get(item.movement)
        end = round(at + one / 60, 2)
        equipment = movement.equipment if movement is not None else ()
        high = item.tier == "high"
        yield TimedItem(item.id, item.name, item.part, tuple(equipment), high, item.load_kg or 0.0, at, end)
        at = end


def station_of(item: TimedItem, hall: Hall) -> Station | None:
    """The first station of the hall that takes the item; None where it is done on free floor."""
    for station in hall.stations:
        if item.part in station.parts or set(item.equipment) & set(station.equipment):
            return station
    return None
