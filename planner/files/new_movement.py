"""A movement that is not in the library yet: from a copy of another or from nothing, in the order files are written."""

from __future__ import annotations

import re
from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from planner.domain.findings import Finding, UserError
from planner.domain.movement import Dose, Jump, Movement, Sprint
from planner.files.edit_fields import ORDER, Assignment
from planner.files.edit_library import LibraryChange, WrittenMovement, add_family, add_movement, families, find_movement
from planner.files.locate import Located
from planner.files.values import Data

NO_SOURCE = "Tags common practice, no source"
# What a copy does not take over: its own place in a chain is for the coach to say.
_NOT_COPIED = ("id", "name", "also", "easier", "harder", "source")
_PARTS: dict[str, type[BaseModel]] = {"dose": Dose, "jump": Jump, "sprint": Sprint}


@dataclass(frozen=True)
class Wish:
    """What a coach has said of the new movement so far."""

    id: str | None
    like: str | None
    name: str | None
    family: str | None
    fields: tuple[Assignment, ...]

    def needs_asking(self) -> bool:
        """Whether too little is said to write anything."""
        said = {one.path[0] for one in self.fields if not one.drops}
        wanted = {name for name, field in Movement.model_fields.items() if field.is_required()}
        return self.id is None or (self.like is None and not wanted - {"id", "name", "source"} <= said)


def place(wish: Wish, library: Located) -> LibraryChange:
    """The change that adds the movement. Raises UserError where it is not clear where it goes."""
    model = find_movement(library, wish.like) if wish.like is not None else None
    family, file = _home(wish, model, library)
    entry = new_entry(wish, model)
    if file is None:
        return add_family(library, family, entry)
    return add_movement(library, file, entry, after=wish.like)


def new_entry(wish: Wish, model: WrittenMovement | None) -> dict[str, Data]:
    """The movement as data in the order of the shipped files; quantities stay as they are written."""
    data: dict[str, Any] = {k: deepcopy(v) for k, v in (model.data if model else {}).items() if k not in _NOT_COPIED}
    data |= {"id": wish.id or "", "name": wish.name or _name(wish.id or ""), "source": NO_SOURCE}
    if wish.like is not None:
        data["source"] = f"Tags as for {wish.like}; common practice, no source"
    for one in wish.fields:
        _put(data, one)
    for name, part in _PARTS.items():
        if isinstance(data.get(name), dict):
            data[name] = _ordered(data[name], part.model_fields)
    return _ordered(data, ORDER)


def _home(wish: Wish, model: WrittenMovement | None, library: Located) -> tuple[str, str | None]:
    """The family and its file; no file for a new family."""
    known = families(library)
    if wish.family is not None:
        return wish.family, known.get(wish.family)
    if model is not None:
        return next((family for family, file in known.items() if file == model.name), ""), model.name
    hint = f"name one with --family, such as {', '.join(sorted(known)[:4])}, or give --like ID"
    raise UserError([Finding("", 0, 0, "no-family", "the movement has no family", hint)])


def _put(data: dict[str, Any], one: Assignment) -> None:
    """Set or take out one field; a table on the way to it is made where there is none."""
    holder: Any = data
    for step, following in zip(one.path, one.path[1:], strict=False):
        if isinstance(holder, dict) and not isinstance(holder.get(str(step)), (dict, list)):
            holder[str(step)] = [] if isinstance(following, int) else {}
        holder = holder[step]
    last = one.path[-1]
    if isinstance(holder, list):
        index = int(last)
        if index > len(holder) or (one.drops and index == len(holder)):
            raise UserError(
                [Finding("", 0, 0, "no-entry", f"'{one.written[0]}': the list ends at entry {len(holder)}", "")]
            )
        holder[index : index + 1] = [] if one.drops else [one.value]
    elif one.drops:
        holder.pop(last, None)
    else:
        holder[last] = one.value


def _ordered(data: dict[str, Any], order: Iterable[str]) -> dict[str, Any]:
    known = [name for name in order if name in data]
    return {name: data[name] for name in [*known, *(name for name in data if name not in known)]}


def _name(movement_id: str) -> str:
    """``one-leg-box-hop`` -> ``One-leg box hop``."""
    words = re.sub(r"^(one|two)-leg\b", r"\1_leg", movement_id).replace("-", " ").replace("_", "-")
    return words[:1].upper() + words[1:]
