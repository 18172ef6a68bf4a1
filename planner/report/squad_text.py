"""What was done for a whole squad, in lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from planner.domain.terms import Quality
from planner.report.terminal import first_of, table, wrap
from planner.units import counted

SHORT: dict[Quality, str] = {
    "maximal-strength": "strength",
    "unilateral-hip": "hip",
    "knee-dominant": "knee",
    "calf-ankle": "calf",
    "speed-exposure": "speed",
}


MOST_NAMED = 12  # athletes in a list
GO_ON = (
    "To go on with one: jumpblock revise BLOCK -o REST. The next one: jumpblock plan ATHLETE --after BLOCK -o NEXT. "
    "Planned anew all the same, and the log left without its block: --force."
)


def sheet_outcome_text(
    made: Mapping[str, Sequence[str]], changed: Mapping[str, Sequence[str]], same: Sequence[str]
) -> str:
    """Which athletes' files are new, which are changed and in what, and how many are as they were."""
    lines = [f"{counted(len(made), 'new athlete')}: {first_of(list(made), MOST_NAMED)}"] if made else []
    if changed:
        lines.append(f"{counted(len(changed), 'file')} brought up to date:")
        lines += [f"  {name}: {', '.join(what)}" for name, what in changed.items()]
    if same:
        lines.append(f"{counted(len(same), 'file')} already up to date.")
    return "".join(f"{line}\n" for line in lines or ["Nothing to write."])


COLUMNS = (
    "Gap: how much more ground force the target asks for, ± one standard error. Missed: weekly ranges that the block "
    "does not reach; jumpblock why BLOCK says which."
)


def plan_table(rows: Sequence[Mapping[str, Any]]) -> str:
    """A row for each athlete: gap with its error, what is short, whether it is proved, what was missed or refused."""
    head = ["athlete", "", "gap", "short of", "proved", "missed"]
    counts = Counter(row["status"] for row in rows)
    said = ", ".join(f"{count} {status}" for status, count in counts.items())
    kept = [row["athlete"] for row in rows if row["status"] == "kept"]
    why = [wrap(f"Kept, since they have a log: {first_of(kept, MOST_NAMED)}. {GO_ON}")] if kept else []
    why += [wrap(f"{row['athlete']}: {line}") for row in rows for line in row["why"]]
    why += [wrap(line) for line in _after_words(rows)]
    words = {head.index(name) for name in ("", "short of", "missed")}
    parts = [
        table([head, *[_plan_row(row) for row in rows]], left=words),
        "",
        f"{counted(len(rows), 'athlete')}: {said}.",
        *([wrap(COLUMNS)] if any("gap_N" in row for row in rows) else []),
        *why,
    ]
    return "".join(f"{line}\n" for line in parts)


def _after_words(rows: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    """Who goes on from a block before, and who has none there: a wrong folder or name would show here."""
    made = [row for row in rows if row.get("after") is not None and "gap_N" in row]
    follow, first = ([row["athlete"] for row in made if bool(row["after"]) is has] for has in (True, False))
    if follow:
        yield f"Go on from the block before: {first_of(follow, MOST_NAMED)}."
    if first:
        yield f"No block before, planned as a first one: {first_of(first, MOST_NAMED)}."


def _plan_row(row: Mapping[str, Any]) -> list[str]:
    if "gap_N" not in row:
        return [row["athlete"], row["status"], "", "", "", ""]
    missed = counted(len(row["missed"]), "range") if row["missed"] else "nothing"
    proved = "yes" if row["proved"] else "no"
    return [row["athlete"], row["status"], gap_words(row), short_words(row), proved, missed]


def gap_words(row: Mapping[str, Any]) -> str:
    return f"{row['gap_N']:,} ± {row['gap_N_se']:,} N"


def short_words(row: Mapping[str, Any]) -> str:
    """What is short enough to act on, most of all first."""
    short = sorted(row["short_percent"].items(), key=lambda one: -one[1])
    return ", ".join(f"{SHORT[name]} {percent} %" for name, percent in short) or "nothing"


def overview_text(says: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """``says``: what the columns hold, before them."""
    words = {heads.index(name) for name in ("group", "short of")}
    return f"{wrap(says)}\n\n{table([heads, *rows], left=words)}\n"
