"""What a coach types of one item or one joint: ``110 kg x 6, 6, 5; 2 left``, ``left patellar-knee 1 3 2``; and back."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from planner.domain.block import Item
from planner.domain.terms import JOINTS, LEGS, Joint, Leg
from planner.domain.training_log import PAIN_SIGNS, LoggedItem, LoggedPain, PainSign
from planner.files.suggest import did_you_mean
from planner.files.typed_figures import is_length, refuse_decimal_comma, with_units
from planner.files.typed_loads import read_loads
from planner.units import INCH_m, POUND_kg, QuantityError, Unreadable, parse_quantity

ITEM_EXAMPLE = "110 kg x 6, 6, 5; 2 left"
TOUCHES = {"cm": "3.10 m, 3.12 m", "in": "122 in, 122 1/2 in"}
PAIN_EXAMPLE = "left knee 1 3 2"
_TIMES = re.compile(r"^(?P<loads>.*\S)\s*[x×*]\s*(?P<reps>\d+(\s*,\s*\d+)*)$", re.IGNORECASE)
_RUN_TOGETHER = re.compile(
    r"(?P<load>\d+(\.\d+)?\s*(kgs?|lbs?)),?\s+(?P<reps>\d+([\s,]+\d+)*?)([\s,]+(?P<left>\d+)\s*left)?", re.IGNORECASE
)
_WHOLE = re.compile(r"\d+(\s*,\s*\d+)*")
_SETS = re.compile(r"(\d+)\s*sets?", re.IGNORECASE)
_LEFT = re.compile(r"(\d+(\s*,\s*\d+)*)\s*((reps?\s*)?(left|in reserve))", re.IGNORECASE)
_OTHER = re.compile(r"([a-z0-9]+(?:-[a-z0-9]+)*)\s*:\s*(.*)", re.DOTALL)
_WHY = re.compile(r"(why|because)\b:?\s*(.+)", re.IGNORECASE | re.DOTALL)
# More is a slip of the pen; the log's own model refuses it too.
_MOST_SETS, _MOST_REPS, _MOST_LEFT, _HEAVIEST_kg = 60, 200, 10, 600
_NONE = ("none", "skipped", "left out", "not done")


def read_item(text: str, item: Item, mass_unit: str | None = None) -> LoggedItem:
    """One item as typed: clauses parted by ``;``, each loads and reps, sets, reps left, touches, or why.

    ``mass_unit``: the unit of a load without one; None refuses it. One number of reps is that of every set on the card;
    one figure of reps left is the first set's. ``front-squat: 90 kg x 6, 6`` is another movement.
    """
    text = text.strip()
    said: dict[str, Any] = {"item": item.id}
    other = _OTHER.fullmatch(text)
    if other is not None and not _WHY.fullmatch(text):
        said["movement"], text = other.group(1), other.group(2)
        item = item.model_copy(
            update={"implement": item.implement and "free"}
        )  # what that one is done with is not known
    for clause in filter(None, (part.strip() for part in text.split(";"))):
        for name, value in _clause(clause, item, mass_unit).items():
            if name in said:
                raise Unreadable(f"'{clause}' says {name} a second time", f"write it once, such as {ITEM_EXAMPLE}")
            said[name] = value
    if len(said) == 1:
        raise Unreadable("there is nothing to write down", f"type it like {ITEM_EXAMPLE}")
    return _as_logged(said, item)


def _clause(clause: str, item: Item, mass_unit: str | None) -> dict[str, Any]:
    if clause.lower() in _NONE:
        return {"sets": 0}
    if found := _WHY.fullmatch(clause):
        return {"why": found.group(2).strip()}
    if found := _SETS.fullmatch(clause):
        return {"sets": int(found.group(1))}
    if found := _LEFT.fullmatch(clause):
        return {"reps_in_reserve": _numbers(found.group(1))}
    if found := _TIMES.fullmatch(clause):
        return _loads_and_reps(found.group("loads"), _numbers(found.group("reps")), item, mass_unit)
    if _WHOLE.fullmatch(clause):
        return {"reps": _numbers(clause)}
    if not any(sign.isdigit() for sign in clause):
        raise Unreadable(f"'{clause}' is not sets, reps, a load or touches", f"type it like {ITEM_EXAMPLE}")
    if is_length(clause):
        return {"touches": tuple(_touches(clause))}
    if told := _RUN_TOGETHER.fullmatch(clause):
        reps, left = ", ".join(re.findall(r"\d+", told["reps"])), f"; {told['left']} left" if told["left"] else ""
        raise Unreadable(f"'{clause}' runs load and reps together", f"write {told['load']} x {reps}{left}")
    loads = _loads(clause, item, None)
    return {"load": loads[0]} if len(set(loads)) == 1 else {"loads": tuple(loads)}


def _loads_and_reps(loads: str, reps: tuple[int, ...], item: Item, mass_unit: str | None) -> dict[str, Any]:
    """``110 kg x 6, 6, 5``; where the card has no load to lift also sets x reps, ``3 x 8``."""
    if loads.isdecimal() and item.implement is None and len(reps) == 1:
        if int(loads) > _MOST_SETS:
            message = f"'{loads} x {reps[0]}' would be {loads} sets"
            raise Unreadable(message, "write a load with its unit, or fewer sets")
        return {"sets": int(loads), "reps": reps * int(loads)}
    lifted = _loads(loads, item, mass_unit)
    return {"load": lifted[0], "reps": reps} if len(set(lifted)) == 1 else {"loads": tuple(lifted), "reps": reps}


def _as_logged(said: dict[str, Any], item: Item) -> LoggedItem:
    """One number of reps counts for every set; the number of sets is left out where the reps show it."""
    reps: tuple[int, ...] = said.get("reps", ())
    sets = said.get("sets", len(said.get("loads", ())) or item.sets)
    if len(reps) == 1 and sets > 1:
        said["reps"] = reps * sets
    if said.get("reps") and len(said["reps"]) == said.get("sets"):
        del said["sets"]
    _refuse_slips(said)
    return LoggedItem.model_construct(**said)


def _refuse_slips(said: dict[str, Any]) -> None:
    loads = [*said.get("loads", ()), said.get("load", 0.0)]
    figures = (
        ("sets", max(said.get("sets", 0), len(said.get("reps", ()))), _MOST_SETS),
        ("reps", max(said.get("reps", (0,))), _MOST_REPS),
        ("reps left", max(said.get("reps_in_reserve", (0,))), _MOST_LEFT),
        ("kg", max(loads), _HEAVIEST_kg),
    )
    for what, figure, most in figures:
        if figure > most:
            raise Unreadable(f"{figure:g} {what} is more than anybody does", "check the figure")
    touches = said.get("touches", ())
    if any(not 1.4 <= touch <= 4.5 for touch in touches):
        hint = f"type it like {TOUCHES['cm']} or {TOUCHES['in']}"
        raise Unreadable("a touch is a height above the floor, 1.4 to 4.5 m (55 to 177 in)", hint)


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(int(one) for one in re.findall(r"\d+", text))


def _loads(text: str, item: Item, unit: str | None) -> list[float]:
    pair = None if item.implement in (None, "free") else item.implement == "pair-of-dumbbells"
    return _read(text, lambda said: read_loads(said, unit, in_both_hands=pair))


def _touches(text: str) -> list[float]:
    return _read(text, lambda said: [parse_quantity(one, "length") for one in with_units(said, "length", None)])


def _read(text: str, read: Callable[[str], list[float]]) -> list[float]:
    refuse_decimal_comma(text)
    try:
        return read(text)
    except QuantityError as error:
        raise Unreadable(error.message, error.hint or f"type it like {ITEM_EXAMPLE}") from None


def item_text(logged: LoggedItem, mass_unit: str = "kg", length_unit: str = "cm", *, times: str = "x") -> str:
    """The item as ``read_item`` reads it back. ``times``: the sign as it is typed, or as it is printed."""
    loads = ", ".join(load_text(load, mass_unit) for load in logged.loads)
    if logged.load is not None:
        loads = load_text(logged.load, mass_unit)
    reps = ", ".join(map(str, logged.reps))
    clauses = [f"{loads} {times} {reps}" if loads and reps else loads or reps]
    if logged.sets is not None:
        clauses.append(f"{logged.sets} set{'' if logged.sets == 1 else 's'}")
    if logged.reps_in_reserve:
        clauses.append(f"{', '.join(map(str, logged.reps_in_reserve))} left")
    if logged.touches:
        clauses.append(", ".join(touch_text(touch, length_unit) for touch in logged.touches))
    if logged.why:
        clauses.append(f"why {logged.why}")
    said = "; ".join(filter(None, clauses))
    return f"{logged.movement}: {said}" if logged.movement else said


def load_text(load_kg: float, mass_unit: str) -> str:
    """In the athlete's unit where that is a whole number of hundredths, as it was typed; else in the other one."""
    in_unit = {"kg": load_kg, "lb": load_kg / POUND_kg}
    for unit in (mass_unit, "kg", "lb"):
        if abs(round(in_unit[unit], 2) - in_unit[unit]) < 1e-6:
            return f"{round(in_unit[unit], 2):g} {unit}"
    return f"{round(load_kg, 3):g} kg"


def touch_text(touch_m: float, length_unit: str) -> str:
    """Metres to the centimetre, or to the millimetre where it was so measured; inches for those who measure in them."""
    inches = touch_m / INCH_m
    if length_unit == "in" and abs(round(inches, 2) - inches) < 1e-6:
        return f"{round(inches, 2):g} in"
    return f"{touch_m:.2f} m" if abs(round(touch_m, 2) - touch_m) < 1e-6 else f"{touch_m:.3f} m"


def read_pain(text: str, *, morning: bool = False) -> LoggedPain:
    """``left patellar-knee 1 3 2``: side, joint, then before, worst and next morning, ``-`` for one not known.

    ``morning``: one figure, of the next morning. Signs (swelling, night-pain, giving-way) may follow.
    """
    words = text.lower().replace(",", " ").split()
    side: Leg | None = None
    if words and words[0] in LEGS:
        side = next(leg for leg in LEGS if leg == words[0])
        del words[0]
    if not words:
        raise Unreadable(f"'{text}' names no joint", f"type it like {PAIN_EXAMPLE}")
    joint = joint_named(words.pop(0))
    signs = tuple(sign for sign in PAIN_SIGNS if sign in words)
    figures = [word for word in words if word not in PAIN_SIGNS]
    most = 1 if morning else 3
    wrong = [word for word in figures if word != "-" and not (word.isdecimal() and int(word) <= 10)]
    if wrong or len(figures) > most or not (figures or signs):
        asked = "one figure from 0 to 10" if morning else "before, worst and next morning, each 0 to 10"
        message = f"'{wrong[0]}' is not a pain of 0 to 10" if wrong else f"'{text}' does not give {asked}"
        raise Unreadable(message, f"type it like {'left knee 2' if morning else PAIN_EXAMPLE}")
    told = [None if word == "-" else int(word) for word in figures]
    before, worst, after = [None, None, *told] if morning and told else [*told, None, None, None][:3]
    return LoggedPain.model_construct(
        joint=joint, side=side, before=before, worst=worst, next_morning=after, signs=tuple[PainSign, ...](signs)
    )


def joint_named(word: str) -> Joint:
    """The joint of this name, or the one whose name holds it: ``knee``."""
    held = [joint for joint in JOINTS if word == joint or word in joint.split("-")]
    if len(held) == 1:
        return held[0]
    raise Unreadable(f"'{word}' is not a joint", did_you_mean(word, JOINTS) or f"use one of: {', '.join(JOINTS)}")


def pain_text(pain: LoggedPain) -> str:
    """The pain as ``read_pain`` reads it back."""
    figures = ["-" if one is None else str(one) for one in (pain.before, pain.worst, pain.next_morning)]
    while figures and figures[-1] == "-":
        figures.pop()
    return " ".join([*([pain.side] if pain.side else []), pain.joint, *figures, *pain.signs])
