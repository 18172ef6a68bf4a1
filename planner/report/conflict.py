"""No block, in a coach's words: the rules that cannot hold together, where, and the cheapest change in real numbers."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from planner.domain.findings import Finding
from planner.problem.model import Problem
from planner.rules.base import ClosingRule, Row, Rule
from planner.rules.registry import rule_by_id

if TYPE_CHECKING:
    from planner.solve.conflict import Change, Conflict

DAY_NAMES = {"mon": "Monday", "tue": "Tuesday", "wed": "Wednesday", "thu": "Thursday", "fri": "Friday"}
DAY_NAMES |= {"sat": "Saturday", "sun": "Sunday"}
MOST_NAMED = 4  # more movements or places than this are counted, not listed
# The lines of an athlete's file that a rule speaks of.
FIELDS = {
    "bans": ("bans",),
    "pins": ("pins",),
    "equipment": ("equipment",),
    "runway": ("equipment", "runway"),
    "level": ("level",),
    "prerequisites": ("tests",),
    "high-tier-gate": ("landing",),
    "pain": ("joints",),
    "take-off-fit": ("take_off",),
    "session-minutes": ("training", "days"),
    "hard-days-apart": ("training", "days"),
    "youth-jump-days": ("training", "days"),
    "match-window": ("matches",),
    "dates": ("training", "away"),
    "start-load": ("recent_load",),
}


def field_of(rule_id: str) -> tuple[str, ...]:
    """The field of the athlete's file to look at for this rule; empty where it is the template's."""
    return FIELDS.get(rule_id, ())


def conflict_findings(conflict: Conflict | None, problem: Problem, path: str) -> list[Finding]:
    """One finding that says no, one for each rule of the conflict, and one with the cheapest change."""
    if conflict is None:
        message = "no block was found, and that there is none could not be confirmed within the budget"
        return [Finding(path, 0, 0, "no-block", message, "give it more with --budget")]
    sure = "" if conflict.minimal else " (perhaps not all of them are needed for it)"
    titles = _list([f"'{rule.title}'" for rule in _rules(conflict)])
    first = "no block keeps this rule" if len(conflict.rules) == 1 else "no block keeps these rules together"
    found = [Finding(path, 0, 0, "no-block", f"{first}{sure}: {titles}", _change_hint(conflict, problem))]
    for rule in _rules(conflict):
        rows = [row for row in conflict.rows if row.rule == rule.id]
        found.append(
            Finding(path, 0, 0, rule.id, _rule_sentence(rule, rows, problem), f"see jumpblock rules {rule.id}")
        )
    return found


def _rules(conflict: Conflict) -> list[Rule]:
    return [rule for name in conflict.rules if (rule := rule_by_id(name)) is not None]


def _rule_sentence(rule: Rule, rows: list[Row], problem: Problem) -> str:
    if isinstance(rule, ClosingRule):
        names = sorted({row.scope.split("/")[-1] for row in rows})
        by_id = {movement.id: movement for movement in problem.movements}
        reasons = [f"{by_id[n].name} {rule.reason(problem, by_id[n])}" for n in names if n in by_id]
        more = f"; and {len(reasons) - MOST_NAMED} more" if len(reasons) > MOST_NAMED else ""
        return f"{rule.title}: {'; '.join(reasons[:MOST_NAMED])}{more}"
    return f"{rule.title}: {_places(rows, problem)}"


def _places(rows: Iterable[Row], problem: Problem) -> str:
    places = list(dict.fromkeys(_place(row, problem) for row in rows))
    if len(places) > MOST_NAMED:
        return f"{_list(places[:MOST_NAMED])} and {len(places) - MOST_NAMED} more places"
    return _list(places)


def _place(row: Row, problem: Problem) -> str:
    """Where a row speaks of; the day or phase alone for rules that speak of many movements at once."""
    rule = rule_by_id(row.rule)
    of_movements = rule is not None and rule.unit == "movements" and rule.id != "pins"
    return place_in_words("/".join(row.scope.split("/")[:2]) if of_movements else row.scope, problem)


def place_in_words(scope: str, problem: Problem) -> str:
    """``w3/d2/hinge`` -> ``week 3, Tuesday, hinge``."""
    words = []
    days = {f"d{slot.number}": DAY_NAMES[slot.day] for slot in problem.slots}
    for part in scope.replace("-w", "/w").split("/"):
        if part.startswith("w") and part[1:].isdigit():
            words.append(f"week {part[1:]}")
        elif part in days:
            words.append(days[part])
        elif part not in ("least", "most", "done"):
            words.append(part.replace("-", " "))
    return ", ".join(words)


def _change_hint(conflict: Conflict, problem: Problem) -> str:
    if not conflict.changes:
        return "more than these rules stands in the way; change one of them and plan again"
    said = list(dict.fromkeys(_change_sentence(change, problem) for change in conflict.changes))
    more = f"; and {len(said) - MOST_NAMED} more such changes" if len(said) > MOST_NAMED else ""
    word = "the cheapest change" if conflict.cheapest else "one change that would do"
    return f"{word}: {'; '.join(said[:MOST_NAMED])}{more}"


def _change_sentence(change: Change, problem: Problem) -> str:
    rule = rule_by_id(change.row.rule)
    place = _place(change.row, problem)
    if rule is None:
        return place
    if isinstance(rule, ClosingRule):
        movement = next((m for m in problem.movements if m.id == change.row.scope.split("/")[-1]), None)
        reason = rule.reason(problem, movement) if movement else None
        return f"make {movement.name if movement else place} possible (it {reason})"
    if rule.id == "session-minutes":
        return f"{_amount(-(-change.amount // 1), 'minutes')} more ({place})"
    if rule.unit == "movements":
        return f"do without '{rule.title}' ({place})"
    return f"{_amount(change.amount, rule.unit)} off '{rule.title}' ({place})"


def _amount(amount: float, unit: str) -> str:
    """``1 minute``, ``2.5 sets``; a unit of several words stays as it is."""
    one = amount == 1 and unit.endswith("s") and " " not in unit
    return f"{amount:.3g} {unit[:-1] if one else unit}"


def _list(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else "nothing"
