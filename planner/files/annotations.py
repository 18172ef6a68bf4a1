"""What a model's annotation says: its type without wrappers, what is declared around it, and its dimension."""

from __future__ import annotations

import types
from collections.abc import Iterable, Iterator
from typing import Annotated, Any, TypeGuard, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from planner.units import Dimension


def is_union(annotation: Any) -> bool:
    return get_origin(annotation) in (Union, types.UnionType)


def is_model(annotation: Any) -> TypeGuard[type[BaseModel]]:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def bare(annotation: Any) -> Any:
    """A type without Annotated and without ``| None``."""
    while True:
        members = [one for one in get_args(annotation) if one is not type(None)] if is_union(annotation) else []
        if get_origin(annotation) is not Annotated and len(members) != 1:
            return annotation
        annotation = members[0] if members else get_args(annotation)[0]


def annotation_of(field: FieldInfo) -> Any:
    """A field's type with what limits it, which the model keeps apart from the type."""
    return Annotated[(field.annotation, *field.metadata)] if field.metadata else field.annotation


def metadata_of(annotation: Any) -> Iterator[Any]:
    """Everything that Annotated says of a type, from the outside in; a field's own constraints are opened up."""
    if get_origin(annotation) is Annotated:
        first, *rest = get_args(annotation)
        for one in rest:
            yield from one.metadata if isinstance(one, FieldInfo) else [one]
        yield from metadata_of(first)
    elif is_union(annotation):
        for member in get_args(annotation):
            yield from metadata_of(member)


def dimension_of(metadata: Iterable[Any]) -> Dimension | None:
    """The dimension of a quantity by its validator; None for what is not a quantity."""
    found = (getattr(getattr(one, "func", None), "dimension", None) for one in metadata)
    return next((dimension for dimension in found if dimension), None)
