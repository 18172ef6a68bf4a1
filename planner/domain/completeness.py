"""Parts of a file that need one another: what a model says of itself where one is missing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args

from pydantic_core import PydanticCustomError

from planner.domain.base import Model


def incomplete(field: str, what: str) -> PydanticCustomError:
    """Worded as the file floor words a quantity: what is wrong; what to write."""
    reason = f"'{field}' is not complete; add {what}"
    return PydanticCustomError("incomplete", "{reason}", {"reason": reason, "at": (field,)})


def out_of_sense(at: tuple[str | int, ...], what: str, hint: str) -> PydanticCustomError:
    """A figure below this model that no sum can use, at its place."""
    return PydanticCustomError("incomplete", "{reason}", {"reason": f"{what}; {hint}", "at": at})


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
