"""A squad's file as a whole: halls that open before they close, names that are there, one target."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from planner.domain.findings import Finding
from planner.domain.training_squad import Opening, Squad
from planner.files.document import Loaded
from planner.files.sense.repeats import repeats
from planner.files.suggest import did_you_mean
from planner.files.tree import Path


def squad_sense(loaded: Loaded[Squad]) -> list[Finding]:
    squad = loaded.require()
    checks = (_openings, _names, _halls_named, _wishes, _target, _groups)
    return [finding for check in checks for finding in check(squad, loaded)]


def _openings(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    lists: list[tuple[Path, Sequence[Opening]]] = [
        (("halls", n, "open"), hall.open) for n, hall in enumerate(squad.halls)
    ]
    lists += [(("coaches", n, "there"), coach.there) for n, coach in enumerate(squad.coaches)]
    for path, openings in lists:
        for index, one in enumerate(openings):
            if one.start >= one.end:
                message = f"it begins at {one.start} and ends at {one.end}"
                yield loaded.finding((*path, index), "ends-before-it-begins", message, "correct from and to")


def _names(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    """Halls, stations, coaches and groups are each named once."""
    yield from _twice(loaded, ("halls",), [hall.name for hall in squad.halls])
    for index, hall in enumerate(squad.halls):
        yield from _twice(loaded, ("halls", index, "stations"), [station.name for station in hall.stations])
        for at, station in enumerate(hall.stations):
            if not station.equipment and not station.parts:
                message = f"nothing says what the station '{station.name}' takes"
                hint = "add equipment, parts or both"
                yield loaded.finding(("halls", index, "stations", at), "takes-nothing", message, hint)
    yield from _twice(loaded, ("coaches",), [coach.name for coach in squad.coaches])
    yield from _twice(loaded, ("groups",), [group.name for group in squad.groups])


def _twice(loaded: Loaded[Squad], path: Path, names: Sequence[str]) -> Iterator[Finding]:
    for index, _ in repeats(names):
        message = f"'{names[index]}' is used twice"
        yield loaded.finding((*path, index, "name"), "name-twice", message, "rename one of them")


def _halls_named(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    halls = [hall.name for hall in squad.halls]
    named = [(("coaches", n, "hall"), coach.hall) for n, coach in enumerate(squad.coaches)]
    named += [(("groups", n, "hall"), group.hall) for n, group in enumerate(squad.groups)]
    for path, name in named:
        if name is not None and name not in halls:
            yield loaded.finding(path, "unknown-hall", f"there is no hall '{name}'", did_you_mean(name, halls))
    if len(halls) > 1:
        for n, coach in enumerate(squad.coaches):
            if coach.hall is None:
                message, hint = f"{coach.name} has no hall, and there are {len(halls)}", "name the hall"
                yield loaded.finding(("coaches", n), "hall-missing", message, hint)


def _wishes(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    groups = [group.name for group in squad.groups]
    for n, wish in enumerate(squad.wishes):
        if (wish.athlete is None) == (wish.group is None):
            message, hint = "it is not clear whose wish this is", "name the athlete or the group"
            yield loaded.finding(("wishes", n), "wish-of-whom", message, hint)
        elif wish.group is not None and wish.group not in groups:
            message = f"there is no group '{wish.group}'"
            yield loaded.finding(("wishes", n, "group"), "unknown-group", message, did_you_mean(wish.group, groups))


def _groups(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    """An athlete is in one group at most: two could ask for two starts."""
    first: dict[str, str] = {}
    for n, group in enumerate(squad.groups):
        for at, athlete in enumerate(group.athletes):
            if athlete in first:
                message = f"'{athlete}' is also in the group '{first[athlete]}'"
                yield loaded.finding(("groups", n, "athletes", at), "two-groups", message, "keep one of them")
            first.setdefault(athlete, group.name)


def _target(squad: Squad, loaded: Loaded[Squad]) -> Iterator[Finding]:
    target = squad.target
    given: Iterable[object] = () if target is None else (target.touch, target.rise, target.gain)
    if target is not None and sum(one is not None for one in given) != 1:
        message = "the target is one of touch, rise and gain"
        yield loaded.finding(("target",), "target-not-one", message, "write one of them", on_key=True)
    elif target is not None and target.touch is not None and target.method != "touch":
        message = f"a touch cannot be the target of the method '{target.method}'"
        yield loaded.finding(("target", "method"), "target-method", message, "write method: touch, or a rise")
