"""Values that come twice in a list."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator


def repeats(values: Iterable[Hashable]) -> Iterator[tuple[int, int]]:
    """(index, first index) of every value that came before."""
    first: dict[Hashable, int] = {}
    for index, value in enumerate(values):
        if first.setdefault(value, index) != index:
            yield index, first[value]
