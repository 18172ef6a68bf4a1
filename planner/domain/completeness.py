"""What a model says where one of its parts is missing, or does not fit the others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, get_args

from pydantic_core import PydanticCustomError

from planner.domain.base import Model

MOST_PAIRS = 100
MOST_SUMS = 10_000  # of plates; 12 pairs in kg with 12 in lb give some thousands


def incomplete(field: str, what: str) -> PydanticCustomError:
    """A field that lacks ``what``."""
    return out_of_sense((field,), f"'{field}' is not complete", f"add {what}")


def out_of_sense(at: tuple[str | int, ...], what: str, hint: str) -> PydanticCustomError:
    """A figure that makes no sense, at its place below this model."""
    return PydanticCustomError("incomplete", "{reason}; {hint}", {"reason": what, "hint": hint, "at": at})


def require_few_sums(field: str, plates_kg: Sequence[float]) -> None:
    """Raises if these pairs of plates give more loads than any gym has: every load is worked out, with its plates."""
    if len(plates_kg) > MOST_PAIRS:
        raise out_of_sense((field,), f"these are more than {MOST_PAIRS} pairs of plates", "list what the athlete uses")
    sums = {0.0}
    for plate_kg in plates_kg:
        sums |= {round(one + plate_kg, 3) for one in sums}
        if len(sums) > MOST_SUMS:
            what = f"these plates give more than {MOST_SUMS:,} different loads"
            raise out_of_sense((field,), what, "list each pair once, with the mass that is stamped on it")


def require_every_word(model: Model, *tables: str) -> None:
    """Raises where a table of the model lacks a line for one of the words that may be its keys."""
    for table in tables:
        keys = get_args(type(model).model_fields[table].annotation)[0]
        lacking = [word for word in _words(keys) if word not in getattr(model, table)]
        if lacking:
            raise incomplete(table, f"a line for {', '.join(lacking)}")


def _words(keys: Any) -> Iterator[str]:
    for one in get_args(keys):
        yield from [one] if isinstance(one, str) else _words(one)
