"""The manual's numbers are the template's: what changes a rule changes its sentence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from pydantic import BaseModel

from planner.domain.template import Template
from planner.domain.template_weekly import WeeklySections
from planner.problem.ceilings import joint_ceilings
from planner.problem.model import Problem
from planner.rules.registry import all_rules
from planner.rules.rule import Rule
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import DEMOS

# Sections whose every number is looked at; a week's line has a test of its own, a wave and a shape shape the problem.
SECTIONS = (
    *(
        "band_width",
        "floors",
        "deload",
        "taper",
        "tag3_least_share",
        "start_growth",
        "loads",
        "hard_day",
        "separations",
        "pain",
    ),
    *("sport_stress", "gates", "youth", "prices", "levels", "required_patterns", "rules"),
    *WeeklySections.model_fields,
)
HIGHEST_PERCENT = 100
TEMPLATES = {demo: shipped_problem(demo).template for demo in DEMOS}
# What a rule reads by way of the Problem: (rule, place in the template). Rows that read the template itself are found.
BY_WAY_OF_THE_PROBLEM = (
    ("contacts-floor", ("floors", "contacts", "build")),
    ("quality-floor", ("floors", "sets", "build")),
    ("start-load", ("start_growth",)),
    ("start-load", ("levels", "novice", "weeks", 0, "contacts")),
    ("joint-stress", ("youth", "growth_factor")),
    ("high-tier-gate", ("gates", "heavy_body_kg")),
    ("high-tier-gate", ("gates", "heavy_body_drop_m")),
    ("high-tier-gate", ("gates", "high_tier_squat_body_mass")),
    ("youth-drops", ("youth", "under_years")),
    ("level", ("youth", "under_years")),
    ("start-load", ("unknown_load_weeks",)),
    ("start-load", ("sets_per_credited_set",)),
    ("load-agrees", ("levels", "novice", "least_reserve")),
    ("load-agrees", ("youth", "least_reserve")),
    *(("load-agrees", ("loads", limit)) for limit in ("agree_reps", "agree_percent", "easy_reserve")),
    *(("steady-progress", ("steady_progress", limit)) for limit in ("more_sets", "more_efforts")),
    ("taper", ("taper", "small")),
    ("deload", ("deload", "aim_under")),
    ("high-tier-gate", ("gates", "closed_high_as_medium")),
    ("band-sets", ("maintenance_share",)),
    ("band-approach", ("band_width", "least_approach")),
    ("hard-days-apart", ("hard_day", "sprint_speed_percent")),
    *((f"band-{what}", ("levels", "novice", "weeks", 0, what)) for what in ("contacts", "sprints", "approach")),
    ("band-tiers", ("levels", "novice", "weeks", 0, "high")),
    ("band-sets", ("band_width", "least_sets")),
)


def _leaves(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        yield from _leaves(inner, (*path, key))
    if isinstance(value, int | float) and not isinstance(value, bool):
        yield path


def _changed(template: Template, path: tuple[Any, ...]) -> Template:
    """The template with one number a little higher, or lower where it is a share or the highest there is."""
    raw = template.model_dump(mode="json")
    parent = raw
    for key in path[:-1]:
        parent = parent[key]
    old = parent[path[-1]]
    whole = -1 if old == HIGHEST_PERCENT else 1
    parent[path[-1]] = old + whole if isinstance(old, int) else (round(old * 0.9, 3) or 0.5)
    return Template.model_validate(raw)


def _with(problem: Problem, template: Template) -> Problem:
    """The same problem under other limits: bands and dosages stay, so that only what a rule itself reads changes."""
    name = next(name for name, level in problem.template.levels.items() if level == problem.level)
    stress = template.levels[name].joint_stress
    ceilings = joint_ceilings(problem.athlete, template, stress, problem.youth)
    return replace(problem, template=template, level=template.levels[name], ceilings=ceilings)


def _places(template: Template) -> list[tuple[Any, ...]]:
    raw = template.model_dump(mode="json")
    found = [path for section in SECTIONS for path in _leaves(raw[section], (section,))]
    return [path for path in found if "weeks" not in path]


class _Watched:
    """A model that notes which of its fields are read: rows that never read a number cannot change with it."""

    def __init__(self, model: BaseModel, place: tuple[str, ...], read: set[tuple[str, ...]]) -> None:
        self._watched = model, place, read

    def __getattr__(self, name: str) -> Any:
        model, place, read = self._watched
        value = getattr(model, name)
        if isinstance(value, BaseModel):
            return _Watched(value, (*place, name), read)
        read.add((*place, name) if name in type(model).model_fields else place)
        return value


def _read_by(rule: Rule, problem: Problem) -> set[tuple[str, ...]]:
    """Places of the template that the rule's rows read. A level may be any level, by whatever name."""
    read: set[tuple[str, ...]] = set()
    name = next(name for name, level in problem.template.levels.items() if level == problem.level)
    watched: Any = _Watched(problem.template, (), read)
    level: Any = _Watched(problem.level, ("levels", name), read)
    list(rule.rows(replace(problem, template=watched, level=level)))
    return read


def _text(path: tuple[Any, ...]) -> tuple[str, ...]:
    return tuple(str(key) for key in path)


@pytest.mark.parametrize("demo", DEMOS)
def test_a_number_that_changes_a_rules_rows_changes_its_sentence_or_its_price(demo: str) -> None:
    problem, template, told = shipped_problem(demo), TEMPLATES[demo], 0
    rules = [rule for rule in all_rules() if rule.id not in ("session-shape", "continuity", "steady-progress")]
    before = {rule.id: set(rule.rows(problem)) for rule in rules}
    read = {rule.id: _read_by(rule, problem) for rule in rules}
    for path in _places(template):
        changed = _changed(template, path)
        other = _with(problem, changed)
        ceilings_moved = other.ceilings != problem.ceilings
        for rule in rules:
            may_change = ceilings_moved or any(_text(path)[: len(place)] == place for place in read[rule.id])
            if may_change and set(rule.rows(other)) != before[rule.id]:
                told += 1
                assert _told(rule, changed) != _told(rule, template), f"{rule.id} does not tell {path}"
    assert told > len(template.levels)


@pytest.mark.parametrize(("rule_id", "path"), BY_WAY_OF_THE_PROBLEM)
def test_a_number_that_reaches_a_rule_by_way_of_the_problem_is_told(rule_id: str, path: tuple[Any, ...]) -> None:
    rule = next(rule for rule in all_rules() if rule.id == rule_id)
    template = TEMPLATES["adult"]
    assert _told(rule, _changed(template, path)) != _told(rule, template)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.id)
def test_the_price_is_that_of_the_rows(rule: Rule) -> None:
    problem = shipped_problem("adult")
    if rule.id == "speed-deficit":  # the adult is short of it by less than the template's figure
        work = problem.template.sprint_work
        assert work is not None and not list(rule.rows(problem))
        asked = work.model_copy(update={"short_of_speed": 0.0})
        problem = replace(problem, template=problem.template.model_copy(update={"sprint_work": asked}))
    paid = {row.price * rule.row_units for row in rule.rows(problem) if row.price}
    assert paid == set(rule.price(problem.template).values())


def _told(rule: Rule, template: Template) -> tuple[str, dict[str, int]]:
    return rule.figures(template), rule.price(template)
