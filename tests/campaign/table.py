"""What every campaign prints: a table of counts, and what broke."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping


def as_table(title: str, counts: Mapping[str, Counter[str]], columns: Iterable[str], faults: Iterable[str]) -> str:
    """A line for each row of ``counts`` and one for their sum, then the faults."""
    columns, faults = list(columns), list(faults)
    widest = max(map(len, [*counts, "all"]))
    width = max(9, *map(len, columns)) + 1
    sums: Counter[str] = Counter()
    lines = [title, " " * widest + "".join(f"{column:>{width}}" for column in columns)]
    for name, row in counts.items():
        sums.update(row)
        lines.append(f"{name:<{widest}}" + "".join(f"{row[column]:>{width}}" for column in columns))
    lines.append(f"{'all':<{widest}}" + "".join(f"{sums[column]:>{width}}" for column in columns))
    return "\n".join([*lines, f"faults: {len(faults)}", *(f"  {fault}" for fault in faults)])
