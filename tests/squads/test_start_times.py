"""Start times: no resource over in any five minutes, the cheapest by another solver, and refusals that it confirms."""

from __future__ import annotations

import random

import pytest

from planner.domain.training_squad import Coach, Hall, Opening, Squad, SquadGroup, SquadWish, Station
from planner.solve.start_times import StartPlan, plan_day, plan_without_some
from planner.starts.day_rows import SquadDay, clock, day_model
from planner.starts.first_fit import FirstFit
from planner.starts.shared_racks import racks_opened
from planner.starts.timed_session import TimedSession
from tests.squads.halls import HIGHS_INFEASIBLE, breaches, drawn_day, fewest_by_trying, highs_status, rules, session

RACKS = Station(name="rack", number=1, share=2, loads_alike=True, equipment=("rack",))
SQUAT = ("main-lift", 20.0, 100.0)


def day(sessions: list[TimedSession], *stations: Station, until: str = "17:00", **more: object) -> SquadDay:
    hall = Hall(name="Gym", open=(Opening(days=("mon",), start="16:00", end=until),), stations=stations)
    squad = Squad(file="squad/1", name="S", athletes=("x",), halls=(hall,), **more)  # type: ignore[arg-type]
    return SquadDay("mon", squad, rules(), tuple(sessions))


def starts(of: SquadDay) -> dict[str, str]:
    return {start.athlete: clock(start.step) for start in plan_day(of).starts}


@pytest.mark.parametrize("seed", range(2, 9))
def test_drawn_halls_by_a_counter_of_its_own_and_by_highs(seed: int) -> None:
    of = drawn_day(seed)
    found = plan_day(of)
    assert found.status in ("optimal", "impossible")
    status, cost = highs_status(found.model)
    if found.status == "impossible":
        assert status == HIGHS_INFEASIBLE
        assert found.overflows
        return
    assert list(breaches(of, found)) == []
    assert cost is not None and round(cost) == found.cost == found.bound


@pytest.mark.parametrize("seed", [2, 4, 5])
def test_a_search_without_time_keeps_starts_that_hold_and_tells_the_gap(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("planner.solve.start_times.START_TIMES", 0.01)
    of = drawn_day(seed)
    found = plan_day(of)
    assert found.status in ("feasible", "optimal")
    assert list(breaches(of, found)) == []
    assert found.cost >= found.bound


@pytest.mark.parametrize("seed", range(11, 20))
def test_starts_found_one_athlete_after_another_hold(seed: int) -> None:
    of = drawn_day(seed)
    model = day_model(of)
    fit = FirstFit(of, model)
    starts = fit.place()
    if starts:
        assert list(breaches(of, StartPlan("feasible", starts))) == []
        point = fit.point(starts)
        sums = [(row, sum(factor * point.get(one, 0) for factor, one in row.terms)) for row in model.rows]
        assert all(value >= row.low for row, value in sums if row.low is not None)
        assert all(value <= row.high for row, value in sums if row.high is not None)


def test_everybody_starts_at_the_opening_where_there_is_room() -> None:
    of = day([session("a", SQUAT), session("b", SQUAT)], RACKS)
    assert starts(of) == {"a": "16:00", "b": "16:00"}


def test_a_third_waits_for_the_rack() -> None:
    of = day([session(name, SQUAT) for name in "abc"], RACKS)
    assert sorted(starts(of).values()) == ["16:00", "16:00", "16:20"]


def test_loads_too_far_apart_do_not_share() -> None:
    of = day([session("a", SQUAT), session("b", ("main-lift", 20.0, 130.0))], RACKS)
    assert sorted(starts(of).values()) == ["16:00", "16:20"]


def test_a_wish_and_a_group_are_kept_where_they_can_be() -> None:
    wishes = (SquadWish(group="two", time="16:25"),)
    groups = (SquadGroup(name="two", athletes=("a", "b")),)
    of = day([session(name, SQUAT) for name in "ab"], RACKS, groups=groups, wishes=wishes)
    assert starts(of) == {"a": "16:25", "b": "16:25"}


def test_a_coach_who_comes_later() -> None:
    there = (Opening(days=("mon",), start="16:30", end="18:00"),)
    of = day([session("a", SQUAT)], RACKS, until="18:00", coaches=(Coach(name="C", there=there),))
    assert starts(of) == {"a": "16:30"}


def test_what_is_over_is_told_with_time_and_number() -> None:
    found = plan_day(day([session(name, ("main-lift", 40.0, 100.0)) for name in "abcde"], RACKS))
    assert found.status == "impossible" and not found.starts
    (over,) = found.overflows
    assert (over.hall, over.resource, over.wanted, over.there) == ("Gym", "rack", 5, 2)
    assert str(over).startswith("Gym, rack 16:1") and str(over).endswith("5 wanted, 2 there")


def test_the_fewest_are_left_out_and_the_others_hold() -> None:
    found = plan_without_some(day([session(name, ("main-lift", 40.0, 100.0)) for name in "abcde"], RACKS))
    assert found.status == "optimal"
    assert [clock(start.step) for start in found.starts] == ["16:00", "16:00"]


def test_another_order_of_items_is_taken_only_where_it_must_be() -> None:
    one = session("a", ("main-lift", 20.0, 100.0), ("main-lift", 20.0, 100.0))
    free = [item for item in one.orders[0]]
    calf = [free[0], type(free[1])("i1", "calf", "main-lift", (), False, 0.0, free[1].start, free[1].end)]
    turned = [
        type(free[0])("i1", "calf", "main-lift", (), False, 0.0, 10.0, 30.0),
        type(free[0])("i0", "squat", "main-lift", ("rack",), False, 100.0, 30.0, 50.0),
    ]
    sessions = [TimedSession(name, name, "w1s1", 50, (tuple(calf), tuple(turned))) for name in "abcd"]
    found = plan_day(day(sessions, RACKS, until="16:50"))
    assert sorted(start.order for start in found.starts) == [0, 0, 1, 1]
    assert {start.order for start in plan_day(day(sessions[:2], RACKS, until="16:50")).starts} == {0}


def test_a_session_longer_than_the_hall_is_open() -> None:
    found = plan_day(day([session("a", ("main-lift", 80.0, 100.0))], RACKS))
    assert found.status == "impossible" and found.overflows == ()


def test_fewest_racks_are_the_fewest() -> None:
    dice = random.Random(5)
    for _ in range(60):
        loads = [float(dice.randrange(40, 120, 5)) for _ in range(dice.randint(0, 5))]
        share = dice.randint(1, 3)
        assert len(racks_opened(loads, share, 20.0)) == fewest_by_trying(loads, share), (loads, share)
