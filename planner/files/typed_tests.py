"""What a coach types of one test: ``3.14, 3.15, 3.13 m``, ``132.5 kg x 4; 2 left``; as lines of an athlete's file."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from typing import Any, Literal

from planner.domain.measure import Test
from planner.domain.terms import Leg
from planner.files.typed_figures import refuse_decimal_comma, with_units
from planner.units import Dimension, QuantityError, Unreadable, parse_quantity

# Of each kind with one list of trials: what a trial is.
LISTS: dict[str, Dimension] = {
    "touch": "length",
    "given-rise": "length",
    "flight-time": "time",
    "contact-time": "time",
    "squat-jump": "time",
    "countermovement-jump": "time",
    "flying-sprint": "time",
    "isometric-force": "force",
}
# Of each kind that holds both legs: what a trial is; None for a count. A leg of the first two has one figure.
LEGS_OF: dict[str, Dimension | None] = {
    "heel-raise": None,
    "isometric-calf": "force",
    "one-leg-hop": "length",
    "one-leg-jump": "time",
}
ONE_FIGURE = ("heel-raise", "isometric-calf")
EXAMPLES = {
    "given-rise": "58, 60, 59 cm",
    "one-leg-hop": "2.02, 2.06, 2.08 m",
    "lift": "132.5 kg x 4; 2 left",
    "drop-jump": "0.205 + 0.500, 0.210 + 0.505 (contact + flight)",
    "contact-mat": "0.205 + 0.500, 0.210 + 0.505 (contact + flight), or flights alone",
    "video-frames": "112 160, 87 136 (first frame on the ground, first off it; a third: back on it)",
    "loaded-jump": "0 kg: 0.545, 0.547; 20 kg: 0.474, 0.478",
    "sprint-splits": "1.78 3.02 4.21, 1.80 3.05 4.24 (a row of times a trial)",
    "heel-raise": "26",
    "isometric-calf": "1450 N",
}
OF_A_LIST: dict[Dimension, str] = {"length": "3.14, 3.15, 3.13 m", "time": "0.566, 0.570 s", "force": "2940, 2985 N"}
_IN_INCHES = {"touch": "123 1/2, 124, 123 in", "given-rise": "23, 23 1/2, 23 in", "one-leg-hop": "80, 82, 81 in"}
_IN_POUNDS = {"lift": "290 lb x 4; 2 left", "loaded-jump": "0 lb: 0.545, 0.547; 45 lb: 0.474, 0.478"}
_LIFT = re.compile(r"(?P<load>.+?)\s*[x×*]\s*(?P<reps>\d+)\s*(?:[;,]\s*(?P<left>\d+)\s*(?:left|in reserve))?", re.I)
# What belongs to one day, and is not the way in which a test is done.
_OF_A_DAY = ("date", "note", "trials", "left", "right", "load", "reps", "reps_in_reserve", "sets")
_MEASURED_THEN = ("touch_down_speed_m_s", "touch_down_speed_error_m_s")
_WRITTEN: dict[str, tuple[float, str]] = {"drop": (0.01, "cm"), "push_off": (0.01, "cm"), "distance": (1.0, "m")}

Units = tuple[Literal["cm", "in"], Literal["kg", "lb"]]


def result_example(kind: str, units: Units) -> str:
    """How a result of this kind is typed, in the athlete's units."""
    length, mass = units
    own = (_IN_INCHES if length == "in" else {}) | (_IN_POUNDS if mass == "lb" else {})
    if kind in own:
        return own[kind]
    dimension = LISTS.get(kind) or LEGS_OF.get(kind)
    return EXAMPLES.get(kind) or OF_A_LIST[dimension or "time"]


def read_result(last: Test, side: Leg | None, text: str, units: Units) -> dict[str, Any]:
    """The fields that the result gives, as the athlete's file writes them. ``last``: the test that is repeated.

    A figure without a unit has that of the others, else the usual one; ``units``: of the athlete's lengths and masses.
    Raises Unreadable.
    """
    kind, text = last.kind, text.strip()
    if kind == "force-platform":
        raise Unreadable("a force platform's record is read from its file", "jumpblock platform RECORD --into ATHLETE")
    if not text:
        raise Unreadable("there is no result", f"type it like {result_example(kind, units)}")
    if kind in LISTS:
        return {"trials": _quantities(text, LISTS[kind], _usual(kind, units))}
    if kind in LEGS_OF:
        return {str(side): _of_leg(kind, text, units)}
    return READERS[kind](text, units)


def _of_leg(kind: str, text: str, units: Units) -> Any:
    dimension = LEGS_OF[kind]
    if dimension is None:
        if not text.isdecimal():
            raise Unreadable(f"'{text}' is not a whole number", f"type it like {result_example(kind, units)}")
        return int(text)
    found = _quantities(text, dimension, _usual(kind, units))
    return found[0] if kind in ONE_FIGURE and len(found) == 1 else found


def _usual(kind: str, units: Units) -> str:
    dimension = LISTS.get(kind) or LEGS_OF.get(kind)
    if dimension == "length":
        return "in" if units[0] == "in" else "cm" if kind == "given-rise" else "m"
    return {"time": "s", "force": "N"}[str(dimension)]


def _lift(text: str, units: Units) -> dict[str, Any]:
    found = _LIFT.fullmatch(text)
    if found is None:
        raise Unreadable(f"'{text}' is not a set of a lift", f"type it like {result_example('lift', units)}")
    load = _quantities(found["load"], "mass", units[1])
    if len(load) != 1:
        raise Unreadable("a lift's test is one set", f"type it like {result_example('lift', units)}")
    left = {} if found["left"] is None else {"reps_in_reserve": int(found["left"])}
    return {"load": load[0], "reps": int(found["reps"]), **left}


def _pairs(text: str, units: Units) -> dict[str, Any]:
    trials = []
    for part in text.split(","):
        times = _quantities(part.replace("+", ","), "time", "s")
        if len(times) > 2:
            raise Unreadable(f"'{part.strip()}' is more than contact and flight", f"type {EXAMPLES['drop-jump']}")
        trials.append(dict(zip(("contact", "flight"), times, strict=True)) if len(times) == 2 else {"flight": times[0]})
    return {"trials": trials}


def _frames(text: str, units: Units) -> dict[str, Any]:
    trials = []
    for part in text.split(","):
        numbers = part.split()
        if not all(number.isdecimal() for number in numbers) or len(numbers) not in (2, 3):
            raise Unreadable(f"'{part.strip()}' is not two or three frames", f"type {EXAMPLES['video-frames']}")
        names = ("touch_down", "take_off", "landing")
        trials.append(dict(zip(names, map(int, numbers), strict=False)))
    return {"trials": trials}


def _loaded(text: str, units: Units) -> dict[str, Any]:
    sets = []
    for part in text.split(";"):
        load, colon, flights = part.partition(":")
        if not colon:
            message = f"'{part.strip()}' does not say its load"
            raise Unreadable(message, f"type it like {result_example('loaded-jump', units)}")
        (mass,) = _quantities(load, "mass", units[1])[:1]
        sets.append({"load": mass, "flights": _quantities(flights, "time", "s")})
    return {"sets": sets}


def _splits(text: str, units: Units) -> dict[str, Any]:
    return {"trials": [_quantities(",".join(part.split()), "time", "s") for part in text.split(",")]}


READERS: dict[str, Callable[[str, Units], dict[str, Any]]] = {
    "lift": _lift,
    "drop-jump": _pairs,
    "contact-mat": _pairs,
    "video-frames": _frames,
    "loaded-jump": _loaded,
    "sprint-splits": _splits,
}


def _quantities(text: str, dimension: Dimension, usual: str) -> list[str]:
    """Each with its unit: its own, else that of the last figure, else the usual one."""
    if dimension != "time" and not re.search(r",\s", text):
        refuse_decimal_comma(text)
    written = with_units(text, dimension, usual)
    try:
        for one in written:
            parse_quantity(one, dimension)
    except QuantityError as error:
        raise Unreadable(
            error.message, error.hint or f"type it like {OF_A_LIST.get(dimension, EXAMPLES['lift'])}"
        ) from None
    return written


def entry_like(last: Test, day: datetime.date, fields: dict[str, Any]) -> dict[str, Any]:
    """A test of this day done in the way of ``last``, with these results, as the athlete's file writes it."""
    same = last.model_dump(exclude={*_OF_A_DAY, *_MEASURED_THEN}, exclude_defaults=True, exclude_none=True)
    how = {name: _in_words(name, value) for name, value in same.items() if name != "kind"}
    return {"kind": last.kind, "date": day, **how, **fields}


def _in_words(name: str, value: Any) -> Any:
    if name == "frame_rate":
        return f"{value:g} /s"
    if name == "distances":
        return [f"{distance:g} m" for distance in value]
    if name in _WRITTEN:
        size, unit = _WRITTEN[name]
        return f"{round(value / size, 4):g} {unit}"
    return value
