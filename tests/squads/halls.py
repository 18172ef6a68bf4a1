"""Drawn halls and days, a counter of its own over their plans, and the same rows for HiGHS."""

from __future__ import annotations

import itertools
import random
from collections import Counter
from collections.abc import Iterator

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from planner.domain.squad_rules import SquadRules
from planner.domain.training_squad import Coach, Hall, Opening, Squad, SquadGroup, SquadWish, Station
from planner.files.load import load_squad_rules
from planner.files.locate import locate_squad_rules
from planner.solve.start_times import StartPlan
from planner.starts.day_rows import DayModel, SquadDay
from planner.starts.timed_session import TimedItem, TimedSession

SPREAD_kg = 20.0
FAST = ("sprint", "approach-jump")
HIGHS_INFEASIBLE = 2


def rules() -> SquadRules:
    at = locate_squad_rules()
    return load_squad_rules(at.path, at.display).require()


def session(athlete: str, *items: tuple[str, float, float], warm_up: int = 10) -> TimedSession:
    """``items``: part, minutes, load. A main lift needs a rack, a hinge a platform."""
    at, made = float(warm_up), []
    for number, (part, minutes, load) in enumerate(items):
        equipment = {"main-lift": ("rack", "barbell"), "hamstring": ("barbell",)}.get(part, ())
        made.append(TimedItem(f"i{number}", part, part, equipment, part == "approach-jump", load, at, at + minutes))
        at += minutes
    return TimedSession(athlete, athlete, "w1s1", round(at + 0.49), (tuple(made),))


def drawn_day(seed: int) -> SquadDay:
    """From 2 athletes in a small room to 60 in two halls, so that some days are full and some are over."""
    dice = random.Random(f"hall {seed}")
    count = dice.randint(2, 24) if seed % 10 else dice.randint(40, 60)
    opens = dice.choice((16, 17))
    halls = []
    for name in ("Gym", "Track")[: dice.choice((1, 1, 2))]:
        close = opens + dice.choice((2, 2, 3))
        open_ = Opening(days=("mon",), start=f"{opens}:00", end=f"{close}:{dice.choice(('00', '10', '30'))}")
        stations = (
            Station(
                name="runway", number=dice.randint(1, 2), share=dice.choice((3, 6)), parts=("sprint", "approach-jump")
            ),
            Station(
                name="rack", number=dice.randint(1, 5), share=dice.choice((2, 3)), loads_alike=True, equipment=("rack",)
            ),
            Station(name="platform", number=dice.randint(1, 4), share=dice.choice((1, 2)), equipment=("barbell",)),
        )
        people = dice.choice((None, None, dice.randint(6, 30)))
        halls.append(Hall(name=name, open=(open_,), people=people, stations=stations))
    sessions = tuple(_drawn_session(f"a{n}", dice) for n in range(count))
    coaches = tuple(Coach(name=f"C{n}", hall=hall.name) for hall in halls for n in range(dice.randint(0, 2)))
    groups = (SquadGroup(name="early", athletes=("a0", "a1")),) if dice.random() < 0.5 else ()
    wishes = (SquadWish(athlete=f"a{count - 1}", time=f"{opens}:30"),) if dice.random() < 0.7 else ()
    squad = Squad(
        file="squad/1", name="Drawn", athletes=("x",), halls=tuple(halls), coaches=coaches, groups=groups, wishes=wishes
    )
    return SquadDay("mon", squad, rules(), sessions)


def _drawn_session(athlete: str, dice: random.Random) -> TimedSession:
    parts = [part for part in ("approach-jump", "sprint", "main-lift", "hamstring", "calf") if dice.random() < 0.7]
    items = [(part, float(dice.randint(6, 20)), float(dice.randrange(40, 140, 5))) for part in parts or ["calf"]]
    return session(athlete, *items)


def breaches(of: SquadDay, plan: StartPlan) -> Iterator[str]:
    """Counted in every five minutes from the sessions' own times; nothing of the rows is used."""
    if sorted(start.athlete for start in plan.starts) != sorted(one.athlete for one in of.sessions):
        yield "not everybody has one start"
    by_name = {one.athlete: one for one in of.sessions}
    for hall in of.squad.halls:
        own = [start for start in plan.starts if start.hall == hall.name]
        for five in range(0, 24 * 60, 5):
            there: Counter[str] = Counter()
            loads: dict[str, list[float]] = {}
            for start in own:
                athlete = by_name[start.athlete]
                begins = start.step * 5
                ends = begins + athlete.minutes
                if begins >= five + 5 or ends <= five:
                    continue
                there["people"] += 1
                opening = hall.open[0]
                if begins < _minutes(opening.start) or ends > _minutes(opening.end):
                    yield f"{start.athlete} is in {hall.name} outside its times"
                touched: dict[str, float] = {}
                for item in athlete.orders[start.order]:
                    if begins + item.start < five + 5 and begins + item.end > five:
                        if item.high_tier:
                            touched["high"] = 0
                        name = _station(item, hall)
                        if name:
                            touched[name] = max(touched.get(name, 0), item.load_kg)
                for name, load in touched.items():
                    there[name] += 1
                    loads.setdefault(name, []).append(load)
            coaches = [one for one in of.squad.coaches if one.hall == hall.name]
            limits = {station.name: station.number * station.share for station in hall.stations}
            if hall.people is not None:
                limits["people"] = hall.people
            if coaches:
                limits["people"] = min(limits.get("people", 999), 15 * len(coaches))
                limits["high"] = 10 * len(coaches)
            for name, most in limits.items():
                if there[name] > most:
                    yield f"{hall.name} {five // 60}:{five % 60:02d}: {there[name]} at {name}, {most} there"
            for station in hall.stations:
                if station.loads_alike and not can_share(loads.get(station.name, []), station.number, station.share):
                    yield f"{hall.name} {five // 60}:{five % 60:02d}: loads {loads[station.name]} do not share"


def _minutes(time: str) -> int:
    hours, minutes = time.split(":")
    return 60 * int(hours) + int(minutes)


def _station(item: TimedItem, hall: Hall) -> str | None:
    for station in hall.stations:
        if item.part in station.parts or any(one in station.equipment for one in item.equipment):
            return station.name
    return None


def can_share(loads: list[float], racks: int, share: int) -> bool:
    """By trying: the first open rack that may take the next lighter load takes it, else a new one is opened."""
    opened: list[list[float]] = []
    for load in sorted(loads, reverse=True):
        for rack in opened:
            if len(rack) < share and rack[0] - load <= SPREAD_kg:
                rack.append(load)
                break
        else:
            opened.append([load])
    return len(opened) <= racks


def fewest_by_trying(loads: list[float], share: int) -> int:
    """Every way to part a few loads into racks; for up to six."""
    for racks in range(len(loads) + 1):
        for where in itertools.product(range(racks), repeat=len(loads)):
            parts = [[load for load, at in zip(loads, where, strict=True) if at == rack] for rack in range(racks)]
            if all(len(part) <= share and max(part, default=0) - min(part, default=0) <= SPREAD_kg for part in parts):
                return racks
    return len(loads)


def highs_status(model: DayModel, time_limit_s: float = 60.0) -> tuple[int, float | None]:
    """Of the rows as they are: 0 and the least cost, 2 where there is no point."""
    column = {one: at for at, one in enumerate(model.most)}
    rows, columns, values = [], [], []
    for number, row in enumerate(model.rows):
        for factor, one in row.terms:
            rows.append(number)
            columns.append(column[one])
            values.append(float(factor))
    table = csr_matrix((values, (rows, columns)), shape=(len(model.rows), len(column)))
    low = [-np.inf if row.low is None else row.low for row in model.rows]
    high = [np.inf if row.high is None else row.high for row in model.rows]
    found = milp(
        np.array([float(model.costs.get(one, 0)) for one in column]),
        constraints=LinearConstraint(table, low, high),
        bounds=Bounds(np.zeros(len(column)), np.array(list(model.most.values()), dtype=float)),
        integrality=np.ones(len(column)),
        options={"time_limit": time_limit_s, "mip_rel_gap": 0.0},
    )
    return int(found.status), None if found.fun is None else float(found.fun)
