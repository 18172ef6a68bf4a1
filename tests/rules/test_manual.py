"""The manual's numbers as they were when written down, and the words that carry them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from planner.rules import figure_words
from planner.rules.registry import all_rules
from tests.solve.demos import template

KEPT: dict[str, dict[str, str]] = YAML(typ="safe").load(Path(__file__).with_name("manual").joinpath("numbers.yaml"))
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


@pytest.mark.parametrize("name", KEPT)
def test_the_manual_tells_the_template_s_numbers(name: str) -> None:
    assert numbers_of(name) == KEPT[name]


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
