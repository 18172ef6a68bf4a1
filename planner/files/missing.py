"""What a line that is missing may hold: the words allowed, the form of a figure, or the lines it needs below it."""

from __future__ import annotations

import datetime
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from planner.files.annotations import dimension_of, is_model
from planner.units import example_of

_MOST_WORDS = 12  # more than these would fill the screen


def how_to_add(model: type[BaseModel] | None, name: str) -> str:
    """``add level: novice, intermediate or advanced``; what it is, where it has no short form."""
    for key, field in model.model_fields.items() if model is not None else ():
        if name in (field.alias, key):
            description = (field.description or "see a shipped file").rstrip(".").lower()
            return f"add {name}: {_form(field) or description}"
    return "add it"


def _form(field: FieldInfo) -> str:
    dimension = dimension_of(field.metadata)
    bounds = {key: getattr(one, key) for one in field.metadata for key in ("ge", "le") if hasattr(one, key)}
    return example_of(dimension) if dimension else _form_of(field.annotation, bounds)


def _form_of(annotation: Any, bounds: dict[str, Any]) -> str:
    if get_origin(annotation) is Literal:
        words = [str(word) for word in get_args(annotation)]
        return " or ".join((", ".join(words[:-1]), words[-1])) if 1 < len(words) <= _MOST_WORDS else ", ".join(words)
    if annotation is datetime.date:
        return "2001-05-17 (year-month-day)"
    if annotation is bool:
        return "true or false"
    if annotation in (int, float) and {"ge", "le"} <= set(bounds):
        kind = "a whole number" if annotation is int else "a number"
        return f"{kind} from {bounds['ge']:g} to {bounds['le']:g}"
    if is_model(annotation):
        needed = [(one.alias or key, one) for key, one in annotation.model_fields.items() if one.is_required()]
        return f"{{{', '.join(f'{name}: {_form(one)}' for name, one in needed)}}}" if needed else ""
    if get_origin(annotation) is tuple and is_model(get_args(annotation)[0]):
        return f"[{_form_of(get_args(annotation)[0], {})}]"
    return ""
