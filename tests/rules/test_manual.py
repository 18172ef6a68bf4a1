"""The manual's numbers as they were when written down, and the words that carry them."""

from __future__ import annotations

import re
from typing import Any

import pytest

from planner.rules import figure_words
from planner.rules.registry import all_rules, rule_named
from tests.rules.cases import in_the_manual
from tests.solve.demos import template

TEMPLATES = ("eight-week", "in-season-four-week")
# What a coach reads off a sentence, however it is worded: the numbers in order, and whose they are.
TELLING = re.compile(r"\d+(?:\.\d+)?|\b(?:novice|intermediate|advanced|build|deload|intensify|taper|none|no)\b")


def numbers_of(name: str) -> dict[str, str]:
    plan = template(name)
    told = {rule.id: (rule.figures(plan), rule.price(plan)) for rule in all_rules()}
    return {
        rule: " ".join(TELLING.findall(words) + [f"costs {points}" for points in price.values()])
        for rule, (words, price) in told.items()
        if words
    }


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_manual_tells_the_template_s_numbers(name: str) -> None:
    assert numbers_of(name) == in_the_manual(name)


def test_counts_and_lists_in_words() -> None:
    assert [figure_words.counted(number, "date") for number in (0, 1, 1.5, 2)] == [
        "0 dates",
        "1 date",
        "1.5 dates",
        "2 dates",
    ]
    assert [figure_words.between(1, 1), figure_words.between(1, 2.5)] == ["1", "1 to 2.5"]
    assert [figure_words.listed("abc"[:count]) for count in range(4)] == ["nothing", "a", "a and b", "a, b and c"]
    assert figure_words.percent(0.415) == "41.5 %"


def changed(**sections: Any) -> Any:
    return template("eight-week").model_copy(update=sections)


def test_weeks_of_a_role() -> None:
    plan = template("eight-week")
    assert [figure_words.weeks_of(plan, role) for role in ("build", "deload")] == ["weeks 1, 2 and 3", "week 4"]
    short = changed(weeks=plan.weeks[:3])
    assert figure_words.weeks_of(short, "taper") == "" == figure_words.taper_aim(short)
    assert "50 % of week 7" in figure_words.taper_aim(plan)


def test_days_of_a_full_week_are_the_fewest_whose_factor_is_one() -> None:
    plans = template("eight-week").day_plans[:1] * 3
    days = [
        one.model_copy(update={"days": count, "factor": factor})
        for one, count, factor in zip(plans, (2, 5, 4), (0.5, 1.0, 1.0), strict=True)
    ]
    assert figure_words.full_week(changed(day_plans=tuple(days))) == "with 4 training days"
    assert "number of days" in figure_words.full_week(changed(day_plans=tuple(days[:1])))


def test_steps_of_pain_in_words() -> None:
    step = template("eight-week").pain[0]
    lines = [(1, 1.0), (3, 0.5), (5, 0.0)]
    steps = [step.model_copy(update={"up_to": up_to, "tag3_share": share}) for up_to, share in lines]
    plan = changed(pain=tuple(reversed(steps)))
    assert [(pain, one.tag3_share) for pain, one in figure_words.pain_steps(plan)] == [
        ("0 to 1", 1.0),
        ("2 to 3", 0.5),
        ("4 to 5", 0.0),
    ]
    said = figure_words.lowered_by_pain(plan, lambda one: one.tag3_share)
    assert TELLING.findall(said) == ["2", "3", "10", "50", "4", "5", "none", "5", "no"]
    assert TELLING.findall(figure_words.lowered_by_pain(plan, lambda _: 1.0)) == ["5", "no"]


WORDS: list[tuple[str, str, dict[str, Any], str]] = [
    (
        "continuity",
        "in-season-four-week",
        {},
        "Phases hold (weeks 1 to 3) and test (week 4). Sets in a session, by planned progression: ",
    ),
    (
        "continuity",
        "in-season-four-week",
        {},
        "0 to 6 for approach-jump-full; 3 for build-up-jumps; 1 to 6 for acceleration.",
    ),
    ("pattern-cover", "in-season-four-week", {}, "Squat, hinge, single-leg-hip"),
    (
        "pattern-cover",
        "in-season-four-week",
        {},
        "frontal-plane in build weeks; squat and straight-knee-calf in taper weeks",
    ),
    (
        "hard-days-apart",
        "in-season-four-week",
        {},
        "from each other and before a match 2 days, 3 for youth and novices.",
    ),
    (
        "hard-days-apart",
        "in-season-four-week",
        {"hard_day": {"days_before_match": 3}},
        "At least: from each other 2 days, 3 for youth and novices; before a match 3 days.",
    ),
    ("hard-days-apart", "in-season-four-week", {"hard_day": {"days_apart": 3}}, "before a match 3 days."),
    (
        "session-shape",
        "in-season-four-week",
        {},
        "; last-strength 3 to 9 (high). At most 20 contacts in primer and 28 contacts in test-primer.",
    ),
    (
        "session-minutes",
        "in-season-four-week",
        {},
        "Warm-up 8 to 10 minutes, by the session's shape; ramp-up sets, in minutes",
    ),
    (
        "growth",
        "in-season-four-week",
        {},
        "working sets 10 % and 2 more; contacts 10 % and 10 more; low contacts a leg 20 %",
    ),
    ("growth", "in-season-four-week", {}, "high contacts a leg no more (novice), 8 more (intermediate and advanced)"),
    ("deload", "in-season-four-week", {}, "It has no deload week."),
    ("deload", "eight-week", {}, "Week 4: at most 60 % of the last load week, and at least 30 % of its sets"),
    ("taper", "in-season-four-week", {}, "Week 4: 41 % to 59 % of week 3; one more or less"),
    (
        "start-load",
        "in-season-four-week",
        {},
        "15 sets, 46 contacts (0 high tier), 2 sprints; without a recent load 2 weeks",
    ),
    ("pain", "in-season-four-week", {}, "Closed at pain 3 to 5 of 10; above 5 no block is planned."),
    ("youth-jump-days", "in-season-four-week", {}, "at least 3 days (72 hours) apart"),
    (
        "before-sprints",
        "in-season-four-week",
        {"separations": {"heavy_hinge_before_sprint_days": 0}},
        "1 day after a heavy",
    ),
    ("high-tier-gate", "in-season-four-week", {}, "Open to intermediate and advanced, with"),
]


@pytest.mark.parametrize(("rule", "name", "changes", "words"), WORDS)
def test_figures_are_told_in_these_words(rule: str, name: str, changes: dict[str, Any], words: str) -> None:
    assert words in rule_named(rule).figures(template(name, changes or None))


def test_what_no_template_has_is_told_as_such() -> None:
    plan = template("in-season-four-week")
    bare = [shape.model_copy(update={"low_contacts_only_up_to": None}) for shape in plan.shapes]
    assert "primer takes" not in rule_named("session-shape").figures(plan.model_copy(update={"shapes": tuple(bare)}))
    quick = {name: scheme.model_copy(update={"ramp_s": 0}) for name, scheme in plan.schemes.items()}
    assert rule_named("session-minutes").figures(plan.model_copy(update={"schemes": quick})).endswith("shape.")
    shut = {name: level.model_copy(update={"highest_tier": "medium"}) for name, level in plan.levels.items()}
    assert "Open to no level, with" in rule_named("high-tier-gate").figures(plan.model_copy(update={"levels": shut}))
    mild = tuple(step.model_copy(update={"tag3_share": 0.5}) for step in plan.pain)
    assert "at no level of pain" in rule_named("pain").figures(plan.model_copy(update={"pain": mild}))
    less = plan.levels["novice"].growth.model_copy(
        update={"sets": plan.levels["novice"].growth.sets.model_copy(update={"ratio": 0.9})}
    )
    slow = {name: level.model_copy(update={"growth": less}) for name, level in plan.levels.items()}
    told = rule_named("growth").figures(plan.model_copy(update={"levels": slow}))
    assert "working sets 90 % of them and 2 more" in told
