"""A template's numbers in a coach's words, for the manual, by level, role or week where they differ."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from planner.domain.template import LevelPlan, Template, WeekBudget
from planner.domain.template_limits import PainStep
from planner.domain.terms import LEVELS, LOAD_ROLES, ROLES, Role
from planner.units import counted as counted

V = TypeVar("V")


def percent(share: float) -> str:
    """0.41 -> '41 %'."""
    return f"{100 * share:g} %"


def between(least: float, most: float) -> str:
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"


def listed(words: Iterable[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    *most, last = list(words) or ["nothing"]
    return f"{', '.join(most)} and {last}" if most else last


def each_level(template: Template, words: Callable[[LevelPlan], str], separator: str = ", ") -> str:
    """'80 (novice), 100 (intermediate)', with equal levels grouped; the words alone if all levels agree."""
    of = {level: words(template.levels[level]) for level in LEVELS if level in template.levels}
    together = _same(of)
    if len(together) == 1:
        return next(iter(together))
    return separator.join(f"{text} ({listed(levels)})" for text, levels in together.items())


def each_role(template: Template, words: Mapping[Role, str], separator: str = ", ") -> str:
    """'50 % in build and intensify weeks, 25 % in taper weeks'; only roles that the template uses."""
    of = {role: words[role] for role in ROLES if role in words and role in {week.role for week in template.weeks}}
    return separator.join(f"{text} in {listed(roles)} weeks" for text, roles in _same(of).items())


def weeks_of(template: Template, role: Role) -> str:
    """'week 4', 'weeks 4 and 8'; empty if no week has the role."""
    weeks = [str(number) for number, week in enumerate(template.weeks, start=1) if week.role == role]
    return f"week{'' if len(weeks) == 1 else 's'} {listed(weeks)}" if weeks else ""


def week_by_week(template: Template, value: Callable[[WeekBudget], float]) -> str:
    """What each week before the taper aims at, level by level; 'none' for a level that has none."""
    kept = [at for at, week in enumerate(template.weeks) if week.role != "taper"]

    def words(level: LevelPlan) -> str:
        values = [value(level.weeks[at]) for at in kept]
        return ", ".join(f"{number:g}" for number in values) if any(values) else "none"

    return each_level(template, words, "; ")


def over_load_weeks(template: Template, value: Callable[[WeekBudget], float]) -> Callable[[LevelPlan], str]:
    """For ``each_level``: from the least to the most that a load week aims at."""
    load = [at for at, week in enumerate(template.weeks) if week.role in LOAD_ROLES]

    def words(level: LevelPlan) -> str:
        values = [value(level.weeks[at]) for at in load]
        return between(min(values), max(values))

    return words


def full_week(template: Template) -> str:
    """The number of training days that the template's weekly aims are for."""
    whole = [plan.days for plan in template.day_plans if plan.factor == 1]
    return f"with {counted(min(whole), 'training day')}" if whole else "before its share for the number of days"


def band_width(template: Template, least: float, unit: str) -> str:
    """How far a band reaches from its aim; ``least`` is its least full width, in ``unit``."""
    share, half = percent(template.band_width.fraction), counted(least / 2, unit)
    return f"within {share} or {half} either way, whichever is more"


def taper_aim(template: Template) -> str:
    """A clause on what the taper aims at, with its semicolon; empty if there is no taper."""
    if not weeks_of(template, "taper"):
        return ""
    share = (template.taper.low + template.taper.high) / 2
    return f"; the taper aims at {percent(share)} of week {template.reference_week}"


def pain_steps(template: Template) -> list[tuple[str, PainStep]]:
    """The steps of pain with the pains of each: '0', '1 to 2', '3 to 5'."""
    steps = sorted(template.pain, key=lambda step: step.up_to)
    lows = [0, *(step.up_to + 1 for step in steps)]
    return [(between(low, step.up_to), step) for low, step in zip(lows, steps, strict=False)]


def lowered_by_pain(template: Template, share: Callable[[PainStep], float]) -> str:
    """'pain 1 to 2 of 10 leaves 60 %, 3 to 5 leaves 40 %; above 5 no block is planned'."""
    steps = [(pain, share(step)) for pain, step in pain_steps(template) if share(step) != 1]
    if not steps:
        return refused_pain(template)
    first, *others = [f"leaves {percent(left) if left else 'none'}" for _, left in steps]
    lowered = [f"pain {steps[0][0]} of 10 {first}"]
    lowered += [f"{pain} {leaves}" for (pain, _), leaves in zip(steps[1:], others, strict=True)]
    return f"{', '.join(lowered)}; {refused_pain(template)}"


def refused_pain(template: Template) -> str:
    return f"above {max(step.up_to for step in template.pain)} no block is planned"


def _same(of: Mapping[V, str]) -> dict[str, Sequence[V]]:
    """Who has the same text, in order of first appearance."""
    found: dict[str, list[V]] = {}
    for who, text in of.items():
        found.setdefault(text, []).append(who)
    return dict(found)
