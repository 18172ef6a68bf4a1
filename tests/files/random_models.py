"""Random instances of any model, from its own fields and bounds, so that a round trip meets every field."""

from __future__ import annotations

import datetime
import types
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from annotated_types import Ge, Le, MaxLen, MinLen
from hypothesis import reject
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from planner.files.text import HIDDEN

# Words that a writer of YAML is likely to get wrong, among arbitrary ones.
AWKWARD = [
    "true", "no", "null", "~", "", " ", "12", "1e3", "012", "0x1F", "1_0", ".inf", "2025-01-01", "2025-02-30", "- a",
    "a: b", "a:", ":a", "a #b", "#a", "'a'", '"a"', "a'b", "[a]", "{a}", "a, b", "a]", "&a", "*a", "!a", "%a", "@a",
    "`a", "|", ">", "? a", "---", "...", "<<", "a\nb", "a\n", "\ta", "a\tb",
    "é × − ≥ ½ → ☐", "日本", "\U0001f600", "a  b", " a", "a ", "=", "12 kg", "3-4",
    "4 x 6", "+1", "1:30",
    "\\", "a\\nb", "-", "?", "5+",
]  # fmt: skip
# No file of ours holds a hidden character, so no model that was read does.
ANY_TEXT = st.text(max_size=30).map(lambda text: HIDDEN.sub("", text).replace("\r", ""))
TEXT = st.one_of(st.sampled_from(AWKWARD), ANY_TEXT, st.text("ab: -#'\"{}[],\n", max_size=12))


def instances(model: type[BaseModel]) -> st.SearchStrategy[Any]:
    """Instances built through validation, so that they are what loading gives."""
    fields = {name: _of(field.annotation, _constraints(field)) for name, field in model.model_fields.items()}
    return st.fixed_dictionaries(fields).map(lambda given: _validated(model, given))


def _validated(model: type[BaseModel], given: dict[str, Any]) -> BaseModel:
    """A value that the model's own checks refuse, such as an absolute path, is no instance."""
    try:
        return model.model_validate(given)
    except ValidationError:
        reject()


def _constraints(field: FieldInfo) -> list[Any]:
    return list(field.metadata)


def _of(annotation: Any, metadata: list[Any]) -> st.SearchStrategy[Any]:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        inner = [m for entry in arguments[1:] for m in (entry.metadata if isinstance(entry, FieldInfo) else [entry])]
        return _of(arguments[0], [*metadata, *inner])
    if origin in (Union, types.UnionType):
        return st.one_of([_of(argument, metadata) for argument in arguments])
    if origin is Literal:
        return st.sampled_from(arguments)
    least, most = _limit(metadata, MinLen, "min_length"), _limit(metadata, MaxLen, "max_length")
    if origin is tuple:
        return st.lists(_of(arguments[0], []), min_size=least or 0, max_size=min(most or 3, 3)).map(tuple)
    if origin is dict:
        return st.dictionaries(_of(arguments[0], []), _of(arguments[1], []), max_size=3)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return instances(annotation)
    return _scalar(annotation, metadata)


def _scalar(annotation: Any, metadata: list[Any]) -> st.SearchStrategy[Any]:
    low, high = _limit(metadata, Ge, "ge"), _limit(metadata, Le, "le")
    if annotation is type(None):
        return st.none()
    if annotation is bool:
        return st.booleans()
    if annotation is int:
        return st.integers(-(10**14) if low is None else low, 10**14 if high is None else high)
    if annotation is float:
        return st.floats(low, high, allow_nan=False, allow_infinity=False)
    if annotation is datetime.date:
        return st.dates(low or datetime.date.min, high or datetime.date.max)
    pattern = next((m.pattern for m in metadata if getattr(m, "pattern", None)), None)
    if pattern:
        return st.sampled_from(["ankle-hop", "1", "true", "null", "2025-01-01", "0x1f", "1e5", "012", "no"])
    return TEXT


def _limit(metadata: list[Any], kind: type, name: str) -> Any:
    return next((getattr(entry, name) for entry in metadata if isinstance(entry, kind)), None)
