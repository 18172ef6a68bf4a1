"""What a coach does to a finished block by hand, as small edits that a case file can name.

change   {week, session, item?, field: value...}   an item's fields, or the session's where no item is named
add      {week, session, item, sets, field: value..., at?}   a movement of the library, dosed by its wave
remove   {week, session, item?}                     an item, or the whole session
move     {week, session, item, to: {week, session}} an item to another session; ``at`` its place there

``week`` may be a list; ``session`` counts from 1 within the week; ``at`` is the place in the session. Contacts follow
sets and reps unless given.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from planner.domain.block import Block, Week
from planner.domain.movement import Movement
from planner.domain.terms import Side
from planner.problem.model import RETEST, Problem
from tests.rules.kept_blocks import block_of

Lines = Mapping[str, Any]


def edited(block: Block, problem: Problem, edits: Sequence[Mapping[str, Lines]]) -> Block:
    """A copy of the block with the edits done in order; the block itself stays."""
    weeks = [week.model_dump() for week in block.weeks]
    for week in weeks:
        week["sessions"] = [{**session, "items": list(session["items"])} for session in week["sessions"]]
    for edit in edits:
        ((action, lines),) = edit.items()
        numbers = lines["week"] if isinstance(lines["week"], list) else [lines["week"]]
        for number in numbers:
            _ACTIONS[action](weeks, problem, {**lines, "week": number})
    return block_of(tuple(Week.model_validate(week) for week in weeks))


def _change(weeks: list[dict[str, Any]], problem: Problem, lines: dict[str, Any]) -> None:
    session = _session(weeks, lines)
    changes = {k: v for k, v in lines.items() if k not in ("week", "session", "item")}
    if "item" not in lines:
        _known(session, changes)
        session.update(changes)
        return
    item = session["items"][_index(session, lines["item"])]
    _known(item, changes)
    item.update(changes)
    if "contacts" not in changes and item["movement"] != RETEST:
        item["contacts"] = _contacts(problem.library[item["movement"]], item)


def _add(weeks: list[dict[str, Any]], problem: Problem, lines: dict[str, Any]) -> None:
    session = _session(weeks, lines)
    movement = problem.library[lines["item"]]
    item = _new_item(problem, movement, lines["week"])
    fields = {k: v for k, v in lines.items() if k not in ("week", "session", "item", "at")}
    _known(item, fields)
    item.update(fields)
    if "contacts" not in fields:
        item["contacts"] = _contacts(movement, item)
    _place(problem, session, item, lines.get("at"))


def _remove(weeks: list[dict[str, Any]], problem: Problem, lines: dict[str, Any]) -> None:
    session = _session(weeks, lines)
    if "item" in lines:
        session["items"].pop(_index(session, lines["item"]))
    else:
        _week(weeks, lines["week"])["sessions"].remove(session)


def _move(weeks: list[dict[str, Any]], problem: Problem, lines: dict[str, Any]) -> None:
    session = _session(weeks, lines)
    item = session["items"].pop(_index(session, lines["item"]))
    _place(problem, _session(weeks, {**lines, **lines.get("to", {})}), item, lines.get("at"))


_ACTIONS = {"change": _change, "add": _add, "remove": _remove, "move": _move}


def _week(weeks: list[dict[str, Any]], number: int) -> dict[str, Any]:
    return next(week for week in weeks if week["number"] == number)


def _session(weeks: list[dict[str, Any]], lines: Lines) -> dict[str, Any]:
    sessions: list[dict[str, Any]] = list(_week(weeks, lines["week"])["sessions"])
    return sessions[lines["session"] - 1]


def _index(session: dict[str, Any], movement: str) -> int:
    held = [item["movement"] for item in session["items"]]
    assert movement in held, f"{movement} is not in {session['id']}, which holds {', '.join(held)}"
    return held.index(movement)


def _known(lines: Mapping[str, Any], changes: Mapping[str, Any]) -> None:
    unknown = sorted(set(changes) - set(lines))
    assert not unknown, f"a case changes {', '.join(unknown)}, which a block does not have"


def _new_item(problem: Problem, movement: Movement, week: int) -> dict[str, Any]:
    dosage = next(e.dosage for e in problem.week_entries(week) if e.movement.id == movement.id)
    jump, sprint = movement.jump, movement.sprint
    return {
        "id": "added",
        "part": movement.part,
        "movement": movement.id,
        "name": movement.name,
        "side": _side(problem, movement),
        "sets": dosage.low_sets,
        "reps": None if dosage.hold_s else dosage.reps,
        "load_kg": None,
        "percent": None,
        "reps_in_reserve": dosage.reserve,
        "distance_m": sprint.distance if sprint else None,
        "height_m": None,
        "hold_s": dosage.hold_s,
        "rest_s": None,
        "contacts": 0,
        "tier": jump.tier if jump else None,
        "cues": (),
        "cautions": (),
        "note": None,
    }


def _side(problem: Problem, movement: Movement) -> Side:
    if movement.legs == "both":
        return "both"
    take_off = problem.athlete.take_off
    if movement.jump is not None and movement.jump.take_off_leg_only and take_off != "two-leg":
        return "left" if take_off.endswith("left") else "right"
    return "each"


def _contacts(movement: Movement, item: Mapping[str, Any]) -> int:
    if movement.jump is None:
        return 0
    legs = 2 if item["side"] == "each" else 1
    return int(item["sets"]) * int(item["reps"] or 0) * movement.jump.contacts_per_rep * legs


def _place(problem: Problem, session: dict[str, Any], item: dict[str, Any], at: int | None) -> None:
    """At the given place, else after the last item of its own or an earlier part of the shape."""
    if at is not None:
        session["items"].insert(at - 1, item)
        return
    shapes = {shape.id: [part.part for part in shape.parts] for shape in problem.template.shapes}
    order: list[str] = list(shapes.get(session["focus"], []))
    rank = order.index(item["part"]) if item["part"] in order else len(order)
    before = [i for i, held in enumerate(session["items"]) if held["part"] in order[: rank + 1]]
    session["items"].insert(max(before) + 1 if before else 0, item)
