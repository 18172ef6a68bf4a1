"""Pain, other days and what a change weighs."""

from __future__ import annotations

import dataclasses

import pytest

from planner.audit import audit
from planner.domain.findings import UserError
from planner.problem.variable import Values, Variable
from planner.report.revise_text import cards_to_print, revise_text
from planner.solve.cp_model import build_model, solver, values_of
from planner.solve.make_block import References, make_block
from planner.solve.past import days_moved, planned_values
from planner.solve.price_of_changes import price_of_changes
from planner.solve.reasons import broken_rules
from planner.solve.rest_of_block import TooManyCards, same_sets
from planner.solve.variable_ranges import variable_ranges
from tests.revise.rest import SECOND_WEDNESDAY, THIRD_MONDAY, Rest, problem_of, rest_of, told_block
from tests.solve.demos import SOMEWHERE, solved

SORE = {"joints": [{"joint": "patellar-knee", "pain": 2}]}
OTHER_DAYS = {
    "training": {"days": [{"day": "tue", "minutes": 75}, {"day": "fri", "minutes": 75}]},
    "practices": [],
    "matches": [],
}


def test_pain_above_the_limit_is_refused_with_the_referral() -> None:
    with pytest.raises(UserError, match="no block is planned over it"):
        problem_of(told_block(THIRD_MONDAY), {"joints": [{"joint": "patellar-knee", "pain": 7}]})


def test_a_movement_may_leave_in_the_middle_of_its_phase() -> None:
    """A ban takes out one movement and no other from its days, from the second Wednesday on."""
    wednesday = told_block(SECOND_WEDNESDAY).weeks[1].sessions[1]
    lift = next(item for item in wednesday.items if item.part == "main-lift")
    rest = rest_of(SECOND_WEDNESDAY, changes={"bans": [lift.movement]})
    assert [b.sentence for b in audit(rest.new, rest.solution.problem) if b.hard] == []
    gone = [change for change in rest.changes if change.out == lift.name]
    assert gone and all("'s bans" in change.because or "ban" in change.because for change in gone)
    assert rest.new.weeks[0] == rest.told.weeks[0] and rest.new.weeks[1].sessions[0] == rest.told.weeks[1].sessions[0]


@pytest.fixture(scope="module")
def sore() -> Rest:
    return rest_of(SECOND_WEDNESDAY, changes=SORE)


def test_what_a_sore_knee_changes_is_told_in_cards_with_reasons(sore) -> None:
    rest = sore
    assert [b.sentence for b in audit(rest.new, rest.solution.problem) if b.hard] == []
    said = revise_text(rest.told, rest.new, rest.changes, {})
    cards = cards_to_print(rest.told, rest.new)
    assert cards and f"{len(cards)} card" in said.splitlines()[0]
    assert "'Joint stress stays under its ceilings'" in said.replace("\n    ", " ")


def test_other_training_days_take_over_in_their_order() -> None:
    told = told_block(THIRD_MONDAY)
    problem = problem_of(told, OTHER_DAYS)
    assert days_moved(problem, told) == {"mon": "tue", "wed": "fri"}
    rest = rest_of(THIRD_MONDAY, changes=OTHER_DAYS)
    assert {f"{s.date:%a}" for s in rest.new.weeks[2].sessions} == {"Tue", "Fri"}
    assert {f"{s.date:%a}" for s in rest.new.weeks[1].sessions} == {"Mon", "Wed"}
    assert [b.sentence for b in audit(rest.new, rest.solution.problem) if b.hard] == []


@pytest.fixture(scope="module")
def priced():
    """What values weigh as changes, in points, from the third week on."""
    told = told_block(THIRD_MONDAY)
    problem = problem_of(told)
    old, prices = planned_values(problem, told), problem.template.revise

    def price(values: Values) -> float:
        built = build_model(problem, [], ranges={key: (value, value) for key, value in values.items()})
        built.model.minimize(price_of_changes(built, old, problem, prices))
        solved = solver(1.0)
        solved.solve(built.model)
        assert values_of(built, solved) == values
        return solved.objective_value / prices.contacts

    return problem, old, prices, price


def _of(problem, old: Values, kind: str, week_or_phase: object) -> list[Variable]:
    return [
        k
        for k in variable_ranges(problem)
        if k.kind == kind and k not in problem.past and old[k] and week_or_phase in k.at
    ]


def test_no_change_weighs_nothing(priced) -> None:
    _, old, _, price = priced
    assert price(old) == 0


def test_movements_weigh_by_what_takes_their_place(priced) -> None:
    problem, old, prices, price = priced
    last = problem.phases[-1].id  # no first week, whose changes are dearer
    chosen = _of(problem, old, "in", last)
    lift = next(k for k in chosen if problem.library[k.at.movement].part != "main-lift")
    movement, families = problem.library[lift.at.movement], problem.library.families
    assert price({**old, lift: 0, **_no_sets(problem, old, lift)}) == prices.dropped
    others = [k for k in variable_ranges(problem) if k.kind == "in" and k.at[:3] == lift.at[:3] and not old[k]]
    same = [k for k in others if problem.library[k.at.movement].part == movement.part]
    cousin = next(k for k in same if families[k.at.movement] == families[movement.id])
    stranger = next(k for k in same if families[k.at.movement] != families[movement.id])
    out = {**old, lift: 0, **_no_sets(problem, old, lift)}
    assert price({**out, cousin: 1}) == prices.replaced_in_family
    assert price({**out, stranger: 1}) == prices.replaced
    assert price({**old, stranger: 1}) == prices.added


def test_a_main_lift_is_dear_and_its_sets_too(priced) -> None:
    problem, old, prices, price = priced
    main = [k for k in variable_ranges(problem) if k.kind == "sets" and problem.library.get(k.at.movement)]
    week = problem.last_week
    lifts = [k for k in main if k.at.week == week and old[k] and problem.library[k.at.movement].part == "main-lift"]
    first = next(k for k in main if k.at.week == 3 and old[k] and problem.library[k.at.movement].part == "main-lift")
    assert price({**old, first: old[first] - 1}) == prices.first_week_factor * prices.main_lift_set
    for lift in lifts:
        assert price({**old, lift: old[lift] - 1}) == prices.main_lift_set


def test_a_day_left_without_a_session_is_a_day_moved_and_two_that_change_places_are_a_swap(priced) -> None:
    problem, old, prices, price = priced
    takes = [key for key in variable_ranges(problem) if key.kind == "takes" and key not in problem.past]
    first, second = (key for key in takes if old[key])
    assert price({**old, first: 0}) == prices.day_moved
    swapped = {first: 0, second: 0, **{key: 1 for key in takes if not old[key]}}
    assert len(swapped) == 4  # two days, two kinds of session
    assert price({**old, **swapped}) == prices.shapes_swapped


def _no_sets(problem, old: Values, chosen: Variable) -> Values:
    weeks = next(p.weeks for p in problem.phases if p.id == chosen.at.phase)
    at = (chosen.at.slot, chosen.at.movement)
    return {k: 0 for k in old if k.kind == "sets" and k.at.week in weeks and (k.at.slot, k.at.movement) == at}


def test_a_limit_of_cards_holds_or_is_refused(sore) -> None:
    cards = len(cards_to_print(sore.told, sore.new))
    with pytest.raises(TooManyCards):
        rest_of(SECOND_WEDNESDAY, changes=SORE, most_cards=0)
    assert len(cards_to_print(sore.told, rest_of(SECOND_WEDNESDAY, changes=SORE, most_cards=cards).new)) <= cards


def test_loads_alone_follow_a_new_test_and_nothing_else_changes() -> None:
    """Maxima 10 % higher: loads go up from the first day on, and every movement and set stays."""
    told = told_block(THIRD_MONDAY)
    problem = problem_of(told)
    stronger = dataclasses.replace(problem, one_rm_kg={key: 1.1 * kg for key, kg in problem.one_rm_kg.items()})
    solution = same_sets(stronger, told)
    assert solution is not None
    references = References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE)
    new = make_block(solution, solved("in-season").gap, references, told, told.revision)
    before, after = ([i for s in block.sessions for i in s.items] for block in (told, new))
    assert [(i.id, i.movement, i.sets) for i in before] == [(i.id, i.movement, i.sets) for i in after]
    heavier = [a.id for b, a in zip(before, after, strict=True) if (a.load_kg or 0) > (b.load_kg or 0)]
    assert heavier and all(one.startswith(("w3", "w4")) for one in heavier)


def test_same_sets_are_refused_where_they_would_break_a_rule() -> None:
    told = told_block(SECOND_WEDNESDAY)
    assert same_sets(problem_of(told, SORE), told) is None
    assert broken_rules(problem_of(told, SORE), told)
