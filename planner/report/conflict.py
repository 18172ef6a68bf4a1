"""No block, in a coach's words: the rules that cannot hold together, the lines that say so, and the cheapest change."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from planner.domain.findings import Finding
from planner.domain.prerequisite import parse_requirement
from planner.domain.terms import DAYS
from planner.problem.model import Problem
from planner.report.change_words import change_words
from planner.report.places import DAY_NAMES, listed, of_row, place_in_words, weeks_in_words
from planner.rules.base import ClosingRule, Row, Rule
from planner.rules.registry import rule_by_id

if TYPE_CHECKING:
    from planner.solve.conflict import Conflict

MOST_NAMED = 12  # more movements than this are counted, not listed
Keys = tuple[str | int, ...]
Locate = Callable[[Keys], tuple[str, int, int]]
# The lines of an athlete's file that a rule speaks of, where it speaks of no single one.
FIELDS: dict[str, Keys] = {
    "bans": ("bans",),
    "pins": ("pins",),
    "equipment": ("equipment", "items"),
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


def field_of(rule_id: str) -> Keys:
    """The field of the athlete's file to look at for this rule; empty where it is the template's."""
    return FIELDS.get(rule_id, ())


def conflict_findings(
    conflict: Conflict | None, problem: Problem, path: str, locate: Locate | None = None
) -> list[Finding]:
    """One finding that says no and what would change it, then one for each line or rule of the conflict."""
    if conflict is None:
        message = "no block was found, and that there is none could not be confirmed within the budget"
        return [Finding(path, 0, 0, "no-block", message, "give it more with --budget")]
    sure = "" if conflict.minimal else " (perhaps not all of them are needed for it)"
    if not conflict.confirmed:
        sure += " (a second search could not confirm it)"
    titles = listed([f"'{rule.title}'" for rule in _rules(conflict)])
    first = "no block keeps this rule" if len(conflict.rules) == 1 else "no block keeps these rules together"
    found = [Finding(path, 0, 0, "no-block", f"{first}{sure}: {titles}", change_words(conflict, problem))]
    for rule in _rules(conflict):
        rows = [row for row in conflict.rows if row.rule == rule.id]
        for keys, sentence in _sentences(rule, rows, conflict, problem):
            where = locate(keys) if locate is not None and keys else (path, 0, 0)
            found.append(Finding(*where, rule.id, sentence, f"see jumpblock rules {rule.id}"))
    return found


def _rules(conflict: Conflict) -> list[Rule]:
    return [rule for name in conflict.rules if (rule := rule_by_id(name)) is not None]


def _sentences(rule: Rule, rows: Sequence[Row], conflict: Conflict, problem: Problem) -> Iterator[tuple[Keys, str]]:
    """What the rule asks in this conflict, and the line of the athlete's file that it asks it of."""
    if rule.id == "session-minutes":
        yield from _minutes(rows, conflict, problem)
    elif rule.id == "pins":
        yield from _pins(rows, conflict, problem)
    elif rule.id == "match-window":
        yield from _matches(rows, problem)
    elif isinstance(rule, ClosingRule):
        yield _closed_field(rule, rows, problem), f"{rule.title}: {_closed(rule, rows, problem)}"
    elif rule.id in ("youth-jump-days", "hard-days-apart"):
        yield field_of(rule.id), f"{rule.title}: {_days_apart(rule, rows, problem)}"
    elif rule.id == "quality-floor":
        yield (), f"{rule.title}: {listed([_floor(row) for row in rows])}"
    elif rule.id == "contacts-floor":
        yield (), f"{rule.title}: {listed([f'at least {row.low} in {_week(row)}' for row in rows])}"
    else:
        yield field_of(rule.id), f"{rule.title}: {_places(rows, problem)}"


def _minutes(rows: Sequence[Row], conflict: Conflict, problem: Problem) -> Iterator[tuple[Keys, str]]:
    """The day's minutes against what a session of that week needs at least, a finding a day."""
    needs = {step.what: step.amount for step in conflict.needs if step.rule == "session-minutes"}
    alone = conflict.rules == ["session-minutes"]
    days = {day.day: number for number, day in enumerate(problem.athlete.training.days)}
    for slot in problem.slots:
        weeks = [row.scope.split("/")[0] for row in rows if of_row(row, slot.number)]
        if not weeks:
            continue
        said = f"{DAY_NAMES[slot.day]} has {slot.gym_minutes} min for it, {weeks_in_words(weeks)}"
        if alone and len({row.scope.split("/")[1] for row in rows}) == 1 and slot.day in needs:
            said += f"; the shortest session that the template has there takes {slot.gym_minutes + needs[slot.day]} min"
        yield ("training", "days", days[slot.day]), f"A session fits its minutes: {said}"


def _pins(rows: Sequence[Row], conflict: Conflict, problem: Problem) -> Iterator[tuple[Keys, str]]:
    numbers = list(dict.fromkeys(int(row.scope.split("/")[1]) for row in rows))
    for number in numbers:
        pin = problem.athlete.pins[number]
        said = f"{problem.library[pin.movement].name} is pinned{f' on {DAY_NAMES[pin.day]}' if pin.day else ''}"
        if conflict.rules == ["pins"]:
            what = "takes it there" if len(numbers) == 1 else "takes all of these together"
            said += f", and no session of the template {what}"
        yield ("pins", number), f"Pinned movements are in: {said}"


def _matches(rows: Sequence[Row], problem: Problem) -> Iterator[tuple[Keys, str]]:
    """The training days beside a match, on the line of the first match that bars one."""
    days: dict[int, list[int]] = {}
    for week, slot in dict.fromkeys(_week_and_slot(row) for row in rows):
        days.setdefault(slot, []).append(week)
    for slot, weeks in days.items():
        name = DAY_NAMES[next(s.day for s in problem.slots if s.number == slot)]
        number, same_day = _match_of(problem, problem.dates[weeks[0], slot])
        said = f"{name} of {weeks_in_words([f'w{week}' for week in weeks])} is "
        said += "a match day" if same_day else "the day before a match"
        yield ("matches", number), f"Only a primer before a match: {said}, and takes a primer alone"


def _match_of(problem: Problem, date: datetime.date) -> tuple[int, bool]:
    """The line of the match on this date, or on the next; and whether it is on this one."""
    for later in (0, 1):
        on = date + datetime.timedelta(days=later)
        for number, match in enumerate(problem.athlete.matches):
            if match.date == on or match.day == DAYS[on.weekday()]:
                return number, later == 0
    return 0, False


def _week_and_slot(row: Row) -> tuple[int, int]:
    week, slot, *_ = row.scope.split("/")
    return int(week[1:]), int(slot[1:])


def _closed(rule: ClosingRule, rows: Iterable[Row], problem: Problem) -> str:
    """The closed movements, together where the reason is the same."""
    reasons: dict[str, list[str]] = {}
    for name in sorted({row.scope.split("/")[-1] for row in rows}):
        movement = problem.library[name]
        reasons.setdefault(rule.reason(problem, movement) or "", []).append(movement.name)
    return "; ".join(f"{_named(names)} {reason}" for reason, names in reasons.items())


def _named(names: list[str]) -> str:
    quoted = [f"'{name}'" for name in names[:MOST_NAMED]]
    more = len(names) - MOST_NAMED
    return quoted[0] if len(names) == 1 else f"each of {listed([*quoted, f'{more} more'] if more > 0 else quoted)}"


def _closed_field(rule: ClosingRule, rows: Sequence[Row], problem: Problem) -> Keys:
    """The line of the first ban or of the painful joint; else the rule's field."""
    first = rows[0].scope.split("/")[-1]
    if rule.id == "bans":
        return ("bans", problem.athlete.bans.index(first))
    if rule.id == "pain":
        reason = rule.reason(problem, problem.library[first]) or ""
        for number, state in enumerate(problem.athlete.joints):
            if f"the {state.joint} " in reason and f"pain {state.pain} " in reason:
                return ("joints", number)
    if rule.id == "prerequisites":
        lifts = {parse_requirement(text).lift for text in problem.library[first].requires}
        for number, test in enumerate(problem.athlete.tests):
            if getattr(test, "movement", None) in lifts:
                return ("tests", number)
    return field_of(rule.id)


def _days_apart(rule: Rule, rows: Iterable[Row], problem: Problem) -> str:
    """Pairs of days too close to each other: what a row of two days says."""
    names = {f"d{slot.number}": DAY_NAMES[slot.day] for slot in problem.slots}
    pairs = dict.fromkeys(
        tuple(names[part] for part in row.scope.replace("-", "/").split("/") if part in names)[:2] for row in rows
    )
    youth = problem.template.youth.days_apart
    apart = youth if problem.youth else problem.template.hard_day.days_apart
    kind = "jump days" if rule.id == "youth-jump-days" else "hard days"
    return f"{kind} lie {apart} dates apart, and {listed([' and '.join(pair) for pair in pairs])} are closer"


def _floor(row: Row) -> str:
    return f"at least {(row.low or 0) / 4:g} sets of {row.scope.split('/')[-1]} in {_week(row)}"


def _week(row: Row) -> str:
    return weeks_in_words([row.scope.split("/")[0]])


def _places(rows: Iterable[Row], problem: Problem) -> str:
    """Where rows speak of, weeks with the same words taken together."""
    by_words: dict[str, list[str]] = {}
    for row in rows:
        week, _, rest = row.scope.partition("/")
        by_words.setdefault(place_in_words(rest, problem), []).append(week)
    return "; ".join(
        f"{words}, {weeks_in_words(weeks)}" if words else weeks_in_words(weeks) for words, weeks in by_words.items()
    )
