"""The start times of one day as linear rows with names: who starts when, where, in which order of items.

A variable says that an athlete starts in a hall at a step of five minutes with one order of the session's items. Rows
hold every resource in every five minutes. Nothing here knows a solver.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from planner.domain.squad_rules import SquadRules
from planner.domain.terms import Day
from planner.domain.training_squad import Hall, Squad, Station
from planner.starts.timed_session import STEP_min, TimedSession, clock_at, station_of

PEOPLE, WATCHED, WATCHED_HIGH = "people", "athletes for the coaches", "athletes in high jumps for the coaches"


class Start(NamedTuple):
    """``step``: of five minutes since midnight. ``order``: which of the session's orders."""

    athlete: str
    hall: str
    step: int
    order: int


class LeftOut(NamedTuple):
    """Whether the athlete has no start at all on this day."""

    athlete: str


class GroupStart(NamedTuple):
    """Whether anybody of the group starts then."""

    group: str
    step: int


class RackWindow(NamedTuple):
    """How many racks are used in a step from this load on, within the spread."""

    hall: str
    station: str
    step: int
    load_kg: float


Usage = dict[tuple[str, str, int], list[Start]]
Variable = Start | LeftOut | GroupStart | RackWindow


@dataclass(frozen=True)
class StartsRow:
    """low <= sum of terms <= high. ``resource``: what it holds, "" for a row that defines; ``there``: how many."""

    name: str
    terms: tuple[tuple[int, Variable], ...]
    low: int | None
    high: int | None
    resource: str = ""
    hall: str = ""
    step: int = -1
    there: int = 0


@dataclass
class DayModel:
    """``most``: the largest value of each variable, in order. ``costs``: of those that have one."""

    most: dict[Variable, int] = field(default_factory=dict)
    rows: list[StartsRow] = field(default_factory=list)
    costs: dict[Variable, int] = field(default_factory=dict)
    loads: dict[tuple[str, str, int], list[tuple[float, Start]]] = field(default_factory=dict)


@dataclass(frozen=True)
class SquadDay:
    """What a day is planned from."""

    day: Day
    squad: Squad
    rules: SquadRules
    sessions: tuple[TimedSession, ...]


def clock(step: int) -> str:
    return clock_at(step * STEP_min)


def step_at(time: str, *, up: bool = False) -> int:
    minutes = 60 * int(time[:2]) + int(time[3:])
    return -(-minutes // STEP_min) if up else minutes // STEP_min


def openings(hall: Hall, day: Day) -> list[range]:
    """Steps in which the hall is open on this weekday, an entry for each time."""
    return [range(step_at(one.start, up=True), step_at(one.end)) for one in hall.open if day in one.days]


def day_model(of: SquadDay, *, other_orders: bool = False, leave_out: bool = False) -> DayModel:
    """``other_orders``: whether sessions may be done in another order of their items than the card's.

    ``leave_out``: whether athletes may be left out; one costs more than all that the starts of the others can.
    """
    model = DayModel()
    usage: Usage = defaultdict(list)
    dearest = 0
    for session in of.sessions:
        own: list[Start] = []
        for hall in halls_of(of.squad, session.athlete):
            for order in range(len(session.orders) if other_orders else 1):
                own += _add_starts(model, usage, of, session, hall, order)
        dearest += max((model.costs[one] for one in own), default=0)
        choices: list[Variable] = [*own]
        if leave_out:
            out = LeftOut(session.athlete)
            model.most[out] = 1
            choices.append(out)
        once = tuple((1, one) for one in choices)
        model.rows.append(StartsRow(f"{session.athlete} starts once", once, 1, 1))
    _add_limits(model, of, usage)
    _add_groups(model, of)
    dearest += sum(cost for one, cost in model.costs.items() if isinstance(one, GroupStart))
    model.costs.update({one: dearest + 1 for one in model.most if isinstance(one, LeftOut)})
    return model


def _add_starts(
    model: DayModel, usage: Usage, of: SquadDay, session: TimedSession, hall: Hall, order: int
) -> Iterator[Start]:
    """Every start that fits the opening times, with its cost and what it uses in which steps."""
    uses = list(_uses(session, order, hall))
    for opening in openings(hall, of.day):
        for step in range(opening.start, opening.stop - session.steps + 1):
            start = Start(session.athlete, hall.name, step, order)
            model.most[start], model.costs[start] = 1, _cost(of, start, opening.start)
            for what, later, load_kg in uses:
                usage[(hall.name, what, step + later)].append(start)
                if load_kg is not None:
                    model.loads.setdefault((hall.name, what, step + later), []).append((load_kg, start))
            yield start


def _uses(session: TimedSession, order: int, hall: Hall) -> Iterator[tuple[str, int, float | None]]:
    """What is used, in which step from the start, each once; of a station also the heaviest load then."""
    yield from ((PEOPLE, step, None) for step in range(session.steps))
    items = session.orders[order]
    high = dict.fromkeys(step for item in items if item.high_tier for step in item.steps)
    yield from ((WATCHED_HIGH, step, None) for step in high)
    heaviest: dict[tuple[str, int], float] = {}
    for item in items:
        station = station_of(item, hall)
        for step in item.steps if station is not None else ():
            assert station is not None
            heaviest[(station.name, step)] = max(heaviest.get((station.name, step), 0.0), item.load_kg)
    yield from ((name, step, load_kg) for (name, step), load_kg in heaviest.items())


def halls_of(squad: Squad, athlete: str) -> list[Hall]:
    only = next((group.hall for group in squad.groups if athlete in group.athletes and group.hall), None)
    return [hall for hall in squad.halls if only in (None, hall.name)]


def _cost(of: SquadDay, start: Start, opens: int) -> int:
    prices, wished = of.rules.prices, wished_step(of.squad, start.athlete, of.day)
    cost = prices.other_order if start.order else 0
    if wished is not None:
        return cost + prices.away_from_wish * abs(start.step - wished)
    return cost + prices.after_opening * (start.step - opens)


def wished_step(squad: Squad, athlete: str, day: Day) -> int | None:
    """The athlete's own wish, else the group's."""
    groups = [group.name for group in squad.groups if athlete in group.athletes]
    wishes = [one for one in squad.wishes if not one.days or day in one.days]
    own = [one for one in wishes if one.athlete == athlete] + [one for one in wishes if one.group in groups]
    return step_at(own[0].time) if own else None


def _add_limits(model: DayModel, of: SquadDay, usage: Usage) -> None:
    """Rows that cannot bind, since too few could be there at all, are left out."""
    for (hall_name, what, step), starts in sorted(usage.items()):
        hall = next(one for one in of.squad.halls if one.name == hall_name)
        for name, most in limits_of(of, hall, what, step):
            if len({start.athlete for start in starts}) > most:
                row_name = f"{hall_name}, {clock(step)}: {name}"
                terms = tuple((1, start) for start in starts)
                model.rows.append(StartsRow(row_name, terms, None, most, name, hall_name, step, most))


def limits_of(of: SquadDay, hall: Hall, what: str, step: int) -> Iterator[tuple[str, int]]:
    """What holds what is used in a step: the name to tell, and how many athletes."""
    if what == PEOPLE:
        if hall.people is not None:
            yield PEOPLE, hall.people
        if _coaches(of, hall):
            yield WATCHED, sum(coaches_there(of, hall, step, high=False))
    elif what == WATCHED_HIGH:
        if _coaches(of, hall):
            yield WATCHED_HIGH, sum(coaches_there(of, hall, step, high=True))
    else:
        station = next(one for one in hall.stations if one.name == what)
        yield what, station.number * station.share


def _coaches(of: SquadDay, hall: Hall) -> bool:
    return any(coach.hall in (None, hall.name) for coach in of.squad.coaches)


def coaches_there(of: SquadDay, hall: Hall, step: int, *, high: bool) -> Iterator[int]:
    """How many each coach who is in the hall in this step can watch."""
    for coach in of.squad.coaches:
        times = [range(step_at(t.start, up=True), step_at(t.end)) for t in coach.there if of.day in t.days]
        if coach.hall in (None, hall.name) and (not coach.there or any(step in one for one in times)):
            watches = coach.watches or of.rules.watching.by_setting[of.squad.setting]
            yield min(watches, of.rules.watching.high_tier) if high else watches


def _add_groups(model: DayModel, of: SquadDay) -> None:
    """A group that starts at one time costs nothing; each further start has its price."""
    there = {session.athlete for session in of.sessions}
    starts: dict[tuple[str, int], list[Start]] = defaultdict(list)
    for one in model.most:
        if isinstance(one, Start):
            starts[(one.athlete, one.step)].append(one)
    for group in of.squad.groups:
        members = [one for one in group.athletes if one in there]
        if len(members) < 2:
            continue
        for step in sorted({at for athlete, at in starts if athlete in members}):
            began = GroupStart(group.name, step)
            model.most[began] = 1
            model.costs[began] = of.rules.prices.group_parted
            for athlete in members:
                terms = [(1, start) for start in starts.get((athlete, step), ())]
                name = f"{athlete} starts at {clock(step)} with the group {group.name}"
                model.rows.append(StartsRow(name, (*terms, (-1, began)), None, 0))


def add_rack_rows(model: DayModel, hall: str, station: Station, step: int, spread_kg: float) -> None:
    """Rows for exactly those loads that can share the racks in this step.

    Racks are opened from a load upwards; those whose loads lie between two loads have room together in the racks that
    may take any of them. Racks and loads lie on one line, so these rows are enough (Hall's condition).
    """
    there = model.loads.get((hall, station.name, step), [])
    loads = sorted({load for load, _ in there})
    windows = [RackWindow(hall, station.name, step, load) for load in loads]
    for window in windows:
        model.most[window] = station.number
    name = f"{hall}, {clock(step)}: {station.name} by load"
    terms: tuple[tuple[int, Variable], ...] = tuple((1, window) for window in windows)
    model.rows.append(StartsRow(name, terms, None, station.number))
    for low in loads:
        for high in [load for load in loads if load >= low]:
            inside = [(1, start) for load, start in there if low <= load <= high]
            room = [(-station.share, one) for one in windows if low - spread_kg <= one.load_kg <= high]
            said = f"{name}, {low:g} to {high:g} kg"
            places = station.number * station.share
            model.rows.append(StartsRow(said, (*inside, *room), None, 0, f"{station.name} by load", hall, step, places))
