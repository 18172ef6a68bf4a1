"""Which answer to a question about a new movement is right, told in a coach's words by ValueError where it is not."""

from __future__ import annotations

import re
from typing import Any

from pydantic import TypeAdapter

from planner.domain.base import MovementId
from planner.domain.findings import UserError
from planner.domain.movement_library import Library
from planner.files.edit_fields import annotation_at, is_required, read_assignments
from planner.files.edit_values import flow_text
from planner.files.suggest import did_you_mean, movement_hint
from planner.jobs.question import Check, refusal, require_fit

CLEAR = "-"


def anything(answer: str) -> str:
    return answer or CLEAR


def filled(answer: str) -> str:
    if answer in ("", CLEAR):
        raise ValueError("an answer is needed here")
    return answer


def slug(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:60]


def new_id(library: Library) -> Check:
    def check(answer: str) -> str:
        if slug(answer) != answer or not answer:
            raise ValueError(f"small letters, digits and single hyphens: {slug(answer)}")
        if answer in library:
            raise ValueError(f"'{answer}' is in the library already, at {library.places.get(answer, '')}")
        return answer

    return check


def known_or_none(library: Library) -> Check:
    def check(answer: str) -> str:
        if answer in ("", CLEAR) or answer in library:
            return answer or CLEAR
        called = library.called(answer)
        if len(called) == 1:
            return called[0]
        alike = [m.id for m in library if answer.casefold() in " ".join((m.id, m.name, *m.also)).casefold()]
        hint = f"perhaps {', '.join(alike[:6])}" if alike else movement_hint(answer, library)
        raise refusal(f"no movement '{answer}'", hint)

    return check


def family(answer: str) -> str:
    require_fit(TypeAdapter(MovementId), answer)
    return answer


def of_field(field: str, library: Library) -> Check:
    """What the field's own type takes; what it names must be in the library, told at once and not after the last
    question."""

    def check(answer: str) -> str:
        if answer in ("", CLEAR):
            return filled(answer) if is_required(field) else CLEAR
        try:
            value = read_assignments([f"{field}={answer}"])[0].value
        except UserError as error:
            raise refusal(error.findings[0].message, error.findings[0].hint) from None
        require_fit(TypeAdapter(annotation_at(field)), value)
        known = _known(field, library)
        for name in [name.strip(" []") for name in answer.split(",")] if known else []:
            if name not in known:
                raise refusal(f"'{name}' is not in the library", did_you_mean(name, known))
        return answer

    return check


def _known(field: str, library: Library) -> list[str]:
    """The names that a field may hold; empty where it holds none of the library's."""
    if field in ("easier", "harder", "dose.of"):
        return list(library.movements)
    return list(library.equipment) if field == "equipment" else []


def shown(data: dict[str, Any], field: str) -> str:
    """The value so far, as it would be typed; - where an optional field has none, nothing where one is needed."""
    value: Any = data
    for step in field.split("."):
        value = value.get(step) if isinstance(value, dict) else None
    if value == {} and is_required(field):
        return "{}"
    if value is None or value == [] or value == {}:
        return "" if is_required(field) else CLEAR
    if isinstance(value, list):
        return ", ".join(str(item) for item in value)
    return flow_text(value)[1:-1] if isinstance(value, dict) else str(value)
