"""Starts that hold, found one athlete after another: where the search begins, and what is kept where it ends too soon.

A fit is not the cheapest. It looks at loads in every step, while rows for them are added only where they are needed.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from planner.starts.day_rows import DayModel, GroupStart, LeftOut, RackWindow, SquadDay, Start, Variable
from planner.starts.shared_racks import racks_opened

LAST = 24 * 60  # after every step
TRIES = 60  # of placing all, each time in another order


@dataclass
class _Taken:
    """``rows``: how many count in each row; ``loads``: of those at a station in a step, how often each."""

    starts: dict[str, Start] = field(default_factory=dict)
    rows: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    loads: dict[tuple[str, str, int], Counter[float]] = field(default_factory=lambda: defaultdict(Counter))


class FirstFit:
    """Places athletes of a day's model; kept, since the rows of a start are looked up for each fit."""

    def __init__(self, of: SquadDay, model: DayModel) -> None:
        self._model, self._spread_kg = model, of.rules.shared_loads.spread
        alike = [(hall.name, one.name, one) for hall in of.squad.halls for one in hall.stations if one.loads_alike]
        self._stations = {(hall, name): station for hall, name, station in alike}
        self._own: dict[str, list[Start]] = defaultdict(list)
        self._rows: dict[Start, list[int]] = defaultdict(list)
        self._loads: dict[Start, list[tuple[tuple[str, str, int], float]]] = defaultdict(list)
        for one in model.most:
            if isinstance(one, Start):
                self._own[one.athlete].append(one)
        for number, row in enumerate(model.rows):
            for _, one in row.terms if row.resource else ():
                if isinstance(one, Start):
                    self._rows[one].append(number)
        for place, there in model.loads.items():
            for load_kg, start in there if place[:2] in self._stations else ():
                self._loads[start].append((place, load_kg))

    def place(self, wanted: Sequence[Start] = ()) -> tuple[Start, ...]:
        """A start for each athlete, those wanted where they hold; () where somebody finds no room."""
        near = {start.athlete: start for start in wanted}
        steps = {name: start.step for name, start in near.items()}
        orders = [lambda name: (steps.get(name, LAST), name)] if near else [self._by_room, self._by_load]
        found = (self._placed(sorted(self._own, key=order), near) for order in orders)
        return min((one for one in found if one), key=self.cost, default=())

    def _by_room(self, athlete: str) -> tuple[object, ...]:
        return (len(self._own[athlete]), athlete)

    def _by_load(self, athlete: str) -> tuple[object, ...]:
        """Like loads one after another, so that they share."""
        loads = [load for one in self._own[athlete][:1] for _, load in self._loads[one]]
        return (max(loads, default=0.0), athlete)

    def added(self, starts: Sequence[Start], athlete: str) -> tuple[Start, ...]:
        """These starts and one of the athlete; () where there is no room."""
        taken = _Taken()
        for start in starts:
            self._take(start, taken)
        return tuple(taken.starts.values()) if self._settle(athlete, taken) else ()

    def _placed(self, athletes: list[str], near: dict[str, Start]) -> tuple[Start, ...]:
        """Whoever finds no room is the first to be placed the next time; who may be left out, is."""
        for _ in range(TRIES):
            taken = _Taken()
            without = [name for name in athletes if not self._settle(name, taken, near.get(name))]
            without = [name for name in without if LeftOut(name) not in self._model.most]
            if not without:
                return self._cheaper(athletes, taken)
            athletes.remove(without[0])
            athletes.insert(0, without[0])
        return ()

    def _cheaper(self, athletes: Sequence[str], taken: _Taken) -> tuple[Start, ...]:
        """Each once moved to the cheapest start that the others leave."""
        for name in athletes:
            if name in taken.starts:
                self._take(taken.starts.pop(name), taken, -1)
            self._settle(name, taken)
        return tuple(taken.starts.values())

    def _settle(self, athlete: str, taken: _Taken, near: Start | None = None) -> bool:
        ranked = sorted(self._own[athlete], key=lambda one: (self._away(one, near), self._model.costs[one], one))
        found = next((one for one in ranked if self._fits(one, taken)), None)
        if found is not None:
            self._take(found, taken)
        return found is not None

    def _away(self, start: Start, wanted: Start | None) -> tuple[int, bool]:
        return (0, False) if wanted is None else (abs(start.step - wanted.step), start != wanted)

    def _take(self, start: Start, taken: _Taken, times: int = 1) -> None:
        """``times``: -1 to give it back."""
        if times > 0:
            taken.starts[start.athlete] = start
        for number in self._rows[start]:
            taken.rows[number] += times
        for place, load in self._loads[start]:
            taken.loads[place][load] += times

    def _fits(self, start: Start, taken: _Taken) -> bool:
        if any(taken.rows[number] >= self._model.rows[number].there for number in self._rows[start]):
            return False
        for place, load in self._loads[start]:
            station = self._stations[place[:2]]
            opened = racks_opened([*taken.loads[place].elements(), load], station.share, self._spread_kg)
            if len(opened) > station.number:
                return False
        return True

    def cost(self, starts: Sequence[Start]) -> int:
        return sum(self._model.costs.get(one, 0) for one in self.point(starts))

    def point(self, starts: Sequence[Start]) -> dict[Variable, int]:
        """The starts with what follows from them: which starts of a group are used, and which racks are opened."""
        chosen, there = set(starts), {start.athlete for start in starts}
        found: dict[Variable, int] = dict.fromkeys(starts, 1)
        found.update({LeftOut(name): 1 for name in self._own if name not in there})
        for row in self._model.rows:
            if isinstance(row.terms[-1][1], GroupStart) and any(one in chosen for _, one in row.terms):
                found[row.terms[-1][1]] = 1
        for one in self._model.most:
            if isinstance(one, RackWindow):
                loads = self._model.loads[(one.hall, one.station, one.step)]
                share = self._stations[(one.hall, one.station)].share
                opened = racks_opened([load for load, start in loads if start in chosen], share, self._spread_kg)
                found[one] = opened.count(one.load_kg)
        return found
