"""A coach's week worked by hand, counted again by the audit with the shipped library's tags.

Standing of every expected figure in worked_week.yaml: common practice, no source.
"""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from planner.domain.block import Item, Session
from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, TIERS
from planner.files.load import load_library
from planner.rules.recount import CountedItem, CountedSession
from tests.solve.demos import template

ROOT = Path(__file__).parents[2]
ROUNDED_TO_points = 0.05 + 1e-9  # the hand-worked figures stand to one decimal
ANY_MONDAY = datetime.date(2024, 1, 1)


@cache
def week() -> dict:
    return YAML(typ="safe", pure=True).load(Path(__file__).with_name("worked_week.yaml"))


@cache
def sessions() -> dict[str, CountedSession]:
    library = load_library(ROOT / "exercise_library").require()
    return {day["day"]: _counted(day, number, library) for number, day in enumerate(week()["days"])}


def _counted(day: dict, number: int, library) -> CountedSession:
    items = []
    for at, line in enumerate(day["items"]):
        movement = library[line["movement"]]
        item = Item(
            id=f"w2s{number}i{at}",
            part=movement.part,
            movement=movement.id,
            name=movement.name,
            side=line["side"],
            sets=line["sets"],
            reps=line.get("reps"),
            hold_s=line.get("hold_s"),
            distance_m=line.get("distance_m"),
            contacts=line.get("contacts", 0),
            tier=movement.jump.tier if movement.jump and line.get("contacts") else None,
        )
        counting = template("eight-week").counting
        items.append(CountedItem(item, movement, counting))
    session = Session(
        id=f"w2s{number}",
        date=ANY_MONDAY + datetime.timedelta(days=number),
        minutes=60,
        hard_day=False,
        why="",
        focus="",
        warm_up_minutes=0,
        items=tuple(item.item for item in items),
    )
    return CountedSession(session, tuple(items))


def expected() -> dict:
    return week()["expected"]


@pytest.mark.parametrize("joint", JOINTS)
@pytest.mark.parametrize("leg", LEGS)
def test_points_of_every_day(joint, leg):
    for day, session in sessions().items():
        assert session.stress(joint, leg) == pytest.approx(
            expected()["points"][day][leg][joint], abs=ROUNDED_TO_points
        ), day


@pytest.mark.parametrize("joint", JOINTS)
@pytest.mark.parametrize("leg", LEGS)
def test_points_of_the_week(joint, leg):
    total = sum(session.stress(joint, leg) for session in sessions().values())
    assert total == pytest.approx(expected()["week_points"][leg][joint], abs=ROUNDED_TO_points)


@pytest.mark.parametrize("joint", JOINTS)
def test_points_of_the_worst_two_days(joint):
    worst = expected()["worst_two_days"]
    total = sum(sessions()[day].stress(joint, "left") for day in worst["days"])
    assert total == pytest.approx(worst["points"][joint], abs=ROUNDED_TO_points)


def test_working_sets_of_each_quality():
    for quality in LIFT_QUALITIES:
        total = sum(item.quality_sets(quality) for session in sessions().values() for item in session.items)
        assert total == pytest.approx(expected()["quality_sets"][quality]), quality


def test_contacts_of_each_tier_and_day():
    for tier in TIERS:
        assert sum(session.tier_contacts(tier) for session in sessions().values()) == expected()["contacts"][tier]
    for day, contacts in expected()["contacts_by_day"].items():
        assert sessions()[day].contacts == contacts


def test_most_stressful_contacts_of_each_leg():
    for joint, legs in expected()["tag3_contacts"].items():
        for leg, contacts in legs.items():
            assert sum(session.tag3_contacts(joint, leg) for session in sessions().values()) == contacts


def test_sprints():
    assert sum(session.sprint_efforts for session in sessions().values()) == expected()["sprints"]["efforts"]
    metres = sum(item.sprint_m for session in sessions().values() for item in session.items)
    assert metres == pytest.approx(expected()["sprints"]["metres"])
