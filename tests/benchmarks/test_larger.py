"""The benchmarks' material is what it says: larger libraries, longer and fuller templates that all make sense."""

from __future__ import annotations

import pytest

from planner.domain.findings import has_errors
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.files.document import Loaded
from planner.files.load import review_of
from planner.files.sense.library_sense import library_sense
from planner.files.sense.template_sense import template_sense
from tests.benchmarks.growth import session_cases, week_cases
from tests.benchmarks.larger import larger_library
from tests.independence.drawn import library


def _work(movement: Movement) -> str:
    """All of a movement but what it is called and which it is easier or harder than."""
    return str(movement.model_dump(exclude={"id", "name", "easier", "harder"}))


@pytest.mark.parametrize("times", [2, 4])
def test_a_larger_library_holds_so_many_distinct_movements_and_the_shipped_ones(times: int) -> None:
    larger = larger_library(library(), times)
    assert len(larger) == times * len(library())
    assert all(larger[movement.id] == movement for movement in library())
    assert len({(larger.families[m.id].removesuffix("-variants"), _work(m)) for m in larger}) == len(larger)
    assert not has_errors(library_sense(Loaded(larger, (), "", "variants"), review_of(larger)))


def test_the_same_seed_gives_the_same_library() -> None:
    assert larger_library(library(), 2) == larger_library(library(), 2)


@pytest.mark.parametrize("template", [case.inputs.template for case in (*week_cases(), *session_cases())])
def test_longer_and_fuller_templates_make_sense(template: Template) -> None:
    assert not has_errors(template_sense(Loaded(template, (), "", template.id)))


def test_the_cases_have_the_weeks_and_sessions_they_name() -> None:
    assert [len(case.inputs.template.weeks) for case in week_cases()] == [4, 8, 12, 16]
    assert [len(case.inputs.athlete.training.days) for case in session_cases()] == [2, 3, 4, 5, 6]
