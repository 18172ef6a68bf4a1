"""Days lost: up to four the block goes on, then the first session back is light, after ten a week is easy too."""

from __future__ import annotations

import datetime

import pytest

from planner.audit import audit
from planner.domain.block import PastSession
from planner.problem.model import Problem, Range
from planner.problem.revised import since_of
from planner.problem.variable import sets_key
from planner.rules.registry import rule_named
from planner.solve.variable_ranges import variable_ranges
from tests.revise.rest import SECOND_WEDNESDAY, THIRD_MONDAY, problem_of, rest_of, told_block

ILL = [PastSession(session=name, missed="ill") for name in ("w1s2", "w2s1", "w2s2")]
ROUNDED = 1  # contacts: a band's ends are whole
WELL_BELOW = 0.75  # of the week as it was: its share, the width of a band and a set more
WEDNESDAY = datetime.date(2025, 9, 10)  # of the first week, the first session missed below


@pytest.mark.parametrize(
    ("missed", "first_day", "days"),
    [
        ([], THIRD_MONDAY, 0),
        (["w2s1"], SECOND_WEDNESDAY, 2),
        (["w1s2", "w2s1"], SECOND_WEDNESDAY, 7),
        (["w1s2", "w2s1"], THIRD_MONDAY, 0),  # he trained on the Wednesday in between
        (["w1s2", "w2s1", "w2s2"], THIRD_MONDAY, 12),
    ],
)
def test_days_lost_are_counted_from_the_first_session_missed_since_the_last_done(missed, first_day, days) -> None:
    told = told_block(first_day, *(PastSession(session=name, missed="ill") for name in missed))
    since = since_of(told)
    assert since is not None and since.days_lost == days


def test_the_first_session_back_is_light_and_no_other() -> None:
    rest = rest_of(SECOND_WEDNESDAY, *ILL[:2])
    problem = rest.solution.problem
    assert problem.light == (2, 2)
    assert [breach.sentence for breach in audit(rest.new, problem) if breach.hard] == []
    back = rest.new.weeks[1].sessions[1]
    assert back.why.startswith("First session back: light.")
    assert not any(item.tier == problem.level.highest_tier for item in back.items)
    before = {item.movement: item.sets for item in rest.told.weeks[1].sessions[1].items}
    assert all(item.sets <= before.get(item.movement, item.sets) for item in back.items)
    assert not any("light" in session.why for week in rest.new.weeks[2:] for session in week.sessions)


def test_a_light_day_has_the_least_sets_of_every_wave_and_no_jumps_of_the_highest_tier() -> None:
    """A wave that may have no set may have one; no other day is light."""
    light, usual = (problem_of(told_block(SECOND_WEDNESDAY, *done)) for done in (ILL[:2], ()))
    assert light.level.highest_tier == "high"
    for day, entries in usual.entries.items():
        lighter = {entry.movement.id: entry.dosage for entry in light.entries[day]}
        for entry in entries:
            found, was = lighter[entry.movement.id], entry.dosage
            most = min(was.high_sets, max(was.low_sets, 1)) if was.tier != "high" else 0
            wanted = (min(was.low_sets, most), most) if day == (2, 2) else (was.low_sets, was.high_sets)
            assert (found.low_sets, found.high_sets) == wanted, (day, entry.movement.id)
    on_it = {entry.movement.id: (entry.dosage.low_sets, entry.dosage.high_sets) for entry in light.entries[2, 2]}
    assert on_it["drop-jump-20"] == (0, 0) and on_it["back-squat"] == (2, 2)
    assert variable_ranges(light)[sets_key(2, 2, "back-squat")] == (0, 2)


@pytest.mark.parametrize(
    ("missed", "first_day", "weeks"),
    [
        (["w1s2", "w2s1"], SECOND_WEDNESDAY, ()),  # 7 days
        (["w1s2", "w2s1", "w2s2"], THIRD_MONDAY, (3,)),  # 12 days
        (["w1s1", "w1s2", "w2s1"], SECOND_WEDNESDAY, ()),  # 9 days
        (["w1s2", "w2s1", "w2s2", "w3s1"], THIRD_MONDAY + datetime.timedelta(days=2), ()),  # no whole load week is left
    ],
)
def test_after_ten_days_lost_the_load_weeks_up_to_a_whole_one_are_easy(missed, first_day, weeks) -> None:
    told = told_block(first_day, *(PastSession(session=name, missed="ill") for name in missed))
    assert problem_of(told).easy_weeks == weeks


def _middle(band: Range) -> float:
    return (band.low + band.high) / 2


def test_an_easy_week_aims_at_its_share_and_is_audited_as_such() -> None:
    rest = rest_of(THIRD_MONDAY, *ILL)
    problem = rest.solution.problem
    assert [breach.sentence for breach in audit(rest.new, problem) if breach.hard] == []
    usual = problem_of(told_block(THIRD_MONDAY))
    share = problem.template.coming_back.easy_week_share
    assert _middle(problem.bands[3].contacts) == pytest.approx(share * _middle(usual.bands[3].contacts), abs=ROUNDED)
    blocks = (rest.told, rest.new)
    contacts = [sum(item.contacts for s in block.weeks[2].sessions for item in s.items) for block in blocks]
    assert contacts[1] <= WELL_BELOW * contacts[0]
    sets = [
        sum(i.sets for s in block.weeks[2].sessions for i in s.items if i.part in ("main-lift", "accessory"))
        for block in blocks
    ]
    assert sets[1] <= WELL_BELOW * sets[0]
    whys = [session.why for session in rest.new.weeks[2].sessions]
    assert whys[0].startswith("First session back: light.") and whys[1].startswith("An easy week after days lost.")


def _weeks_asked(problem: Problem, rule: str) -> set[int | None]:
    return {row.at.week for row in rule_named(rule).rows(problem)}


def test_an_easy_week_is_not_asked_for_a_load_weeks_target_jumps() -> None:
    """The hamstrings' sets stay, and the growth from it is judged."""
    plain, easy = problem_of(told_block(THIRD_MONDAY)), problem_of(told_block(THIRD_MONDAY, *ILL))
    assert 3 in _weeks_asked(plain, "target-jump-weekly")
    assert 3 not in _weeks_asked(easy, "target-jump-weekly")
    assert 3 in _weeks_asked(easy, "weekly-sets")


def test_the_week_after_an_easy_one_grows_from_it() -> None:
    """Its bands are capped by the growth from the easy week, not from the weeks before the days lost."""
    plain, easy = problem_of(told_block(THIRD_MONDAY)), problem_of(told_block(THIRD_MONDAY, *ILL))
    assert easy.last_load_week_before(4) == 3
    assert easy.bands[4].contacts.high < plain.bands[4].contacts.high
