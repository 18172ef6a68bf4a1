"""Where a rule's limit begins to hold, tried on both sides of it."""

from __future__ import annotations

import datetime
import re
from dataclasses import replace
from typing import Any

import pytest

from planner.domain.terms import TIERS
from planner.problem.loads import own_maximum_kg
from planner.rules import currencies
from planner.rules.band_contacts import BandContacts
from planner.rules.contacts_floor import ContactsFloor
from planner.rules.jump_ladder import rung_of
from planner.rules.load_agrees import LoadAgrees
from planner.rules.open_movements import is_open
from planner.rules.recount import count_block
from planner.rules.registry import all_rules, rule_named, rules_version
from planner.rules.rule import Address, ClosingRule, Row
from planner.rules.session_shape import home
from planner.rules.taper import Taper
from planner.rules.target_jump_weekly import is_target_jump
from tests.rules.cases import case_files
from tests.rules.edits import edited
from tests.rules.kept_blocks import block_of, changed_problem, kept_block, kept_problem
from tests.solve.demos import problem, shipped_library, template


@pytest.mark.parametrize("highest", TIERS)
def test_a_shape_takes_jumps_up_to_its_highest_tier_and_none_above(highest: str) -> None:
    shape = next(one for one in template("eight-week").shapes if any(part.part == "jump" for part in one.parts))
    shape = shape.model_copy(update={"highest_tier": highest})
    places = {part.part: part for part in shape.parts if not part.patterns}
    jumps = [one for one in shipped_library().movements.values() if one.jump is not None and one.part in places]
    assert {one.jump.tier for one in jumps if one.jump} == set(TIERS)
    for movement in jumps:
        allowed = TIERS.index(movement.jump.tier) <= TIERS.index(highest)  # type: ignore[union-attr]
        assert (home(shape, movement) is not None) == allowed, movement.id


@pytest.mark.parametrize(("what", "aim"), [("sprints", 6), ("working sets", 20), ("contacts", 59)])
def test_a_taper_has_room_for_one_more_only_where_the_reference_week_aims_at_few(what: str, aim: int) -> None:
    """The aims are those of the in-season player's third week; a row is in thousandths."""
    for small, room in ((aim, 0), (aim + 1, 1000)):
        rows = Taper().rows(changed_problem("in-season", template={"taper": {"small": small}}))
        of_it = [row for row in rows if str(row.at) == f"w4/{what}"]
        assert [row.high for row in of_it if row.high is not None] == [room]
        assert [row.low for row in of_it if row.low is not None] == [-room]


@pytest.mark.parametrize(
    ("rule", "without"),
    [(BandContacts, {"price": None}), (BandContacts, {"band": None}), (ContactsFloor, {"floor": None})],
)
def test_a_currency_without_a_band_a_price_or_a_floor_asks_nothing_there(rule: Any, without: dict[str, None]) -> None:
    class Without(rule):  # type: ignore[misc]
        currencies = (replace(currencies.CONTACTS, **without),)

    planned = kept_problem("in-season")
    assert list(rule().rows(planned)) and not list(Without().rows(planned))
    if "price" in without:
        assert rule().price(planned.template) == {"contact": 1} and Without().price(planned.template) == {}
    else:
        bare = block_of(tuple(week.model_copy(update={"sessions": ()}) for week in kept_block("in-season").weeks))
        plan = count_block(bare, planned)
        assert len(list(rule().audit(plan))) == len(bare.weeks) and not list(Without().audit(plan))


@pytest.mark.parametrize("tier", TIERS)
def test_contacts_of_a_tier_have_its_name_and_its_price(tier: Any) -> None:
    one, prices = currencies.tier_contacts(tier), kept_problem("in-season").template.prices
    assert (one.words, one.of) == (f"{tier}-tier contacts", tier)
    assert one.price and one.price(prices) == (prices.high_contact if tier == "high" else prices.contact)
    week = count_block(kept_block("in-season"), kept_problem("in-season")).weeks[0]
    assert one.done(week) == {"low": 16, "medium": 24, "high": 9}[tier]


def test_sets_of_a_quality_are_counted_in_quarters() -> None:
    one = currencies.quality_sets("calf-ankle")
    week = count_block(kept_block("in-season"), kept_problem("in-season")).weeks[0]
    assert (one.words, one.whole, one.done(week)) == ("sets of calf strength", 4, 4.0)


def test_a_row_knows_its_days_and_the_rules_their_version() -> None:
    first, second = Address(week=1, slot=1), Address(week=2, slot=2)
    assert Row("", first, (), None, 0).days == {(1, 1)}
    assert Row("", first, (), None, 0, other=second).days == {(1, 1), (2, 2)}
    assert re.fullmatch(r"[0-9a-f]{12}", rules_version())


def test_a_thing_that_the_gym_lacks_is_one_step() -> None:
    planned, rule = problem("in-season", {"equipment": {"items": ["bench"]}}), rule_named("equipment")
    offered = [one for row in rule.rows(planned) for one in rule.loosenings(planned, row)]
    assert offered and {(one.size, one.most) for one in offered} == {(1, 1)}


def test_the_registry_finds_each_rule_once_in_its_own_file() -> None:
    assert [rule.id for rule in all_rules.__wrapped__()] == [path.stem for path in case_files()]


def test_a_quality_that_no_week_aims_at_is_told_as_none() -> None:
    plain = template("in-season-four-week")
    levels = {
        name: level.model_copy(update={"weeks": tuple(week.model_copy(update={"sets": {}}) for week in level.weeks)})
        for name, level in plain.levels.items()
    }
    told = next(rule for rule in all_rules() if rule.id == "band-sets").figures(
        plain.model_copy(update={"levels": levels})
    )
    assert (
        "aim at, in sets: maximal strength 0; one-leg hip strength 0; knee-dominant strength 0; calf strength 0;"
        in told
    )


def test_load_and_percentage_may_differ_by_just_what_the_template_allows() -> None:
    """A bar of 87.5 kg beside a card that says 75 %."""
    planned, block = kept_problem("in-season"), kept_block("in-season")
    change = {"week": 1, "session": 1, "item": "back-squat", "percent": 75.0}
    changed = edited(block, planned, [{"change": change}])
    best_kg = own_maximum_kg(planned, planned.library["back-squat"])
    assert best_kg is not None
    apart = abs(100 * 87.5 / best_kg - 75.0)
    for allowed, found in ((apart, 0), (apart - 0.01, 1)):
        loads = planned.template.loads.model_copy(update={"agree_percent": allowed, "agree_reps": 9.0})
        other = replace(planned, template=planned.template.model_copy(update={"loads": loads}))
        said = [one.sentence for one in LoadAgrees().audit(count_block(changed, other))]
        assert len(said) == found and all("the card says 75 %" in sentence for sentence in said)


@pytest.mark.parametrize(("least", "found"), [(0, []), (1, ["Thu 30 Oct has no session"])])
def test_a_day_of_the_test_week_may_stay_without_a_session_only_where_its_shape_may_be_empty(
    least: int, found: list[str]
) -> None:
    """The adult's primer before the test is taken out."""
    planned = kept_problem("adult")
    shapes = dict(planned.test_week_shapes)
    shapes[3] = shapes[3].model_copy(update={"items": (least, 2)})
    block = edited(kept_block("adult"), planned, [{"remove": {"week": 8, "session": 3}}])
    plan = count_block(block, replace(planned, test_week_shapes=shapes))
    assert [one.sentence.partition(";")[0] for one in rule_named("session-shape").audit(plan)] == found


def test_a_primer_before_the_test_has_at_most_its_contacts() -> None:
    """Its three sets of pogos would be 30 contacts: 10 a set."""
    rows = {row.name: row for row in rule_named("session-shape").rows(kept_problem("adult"))}
    row = rows["session-shape/w8/d3/contacts of primer"]
    assert (row.low, row.high) == (None, 20)
    assert {key.name: contacts for contacts, key in row.terms}["sets/w8/d3/tall-pogo"] == 10
    assert not any(key.kind == "takes" for _, key in row.terms)


def test_a_movement_whose_wave_the_template_lacks_is_not_open() -> None:
    planned = kept_problem("in-season")
    pogo, schemes = planned.library["tall-pogo"], planned.template.schemes
    others = {name: scheme for name, scheme in schemes.items() if name != pogo.dose.scheme}
    without = replace(planned, template=planned.template.model_copy(update={"schemes": others}))
    assert is_open(planned, pogo) and not is_open(without, pogo)


def test_a_drop_jump_is_closed_by_the_joint_that_hurts_and_on_its_leg() -> None:
    """Each entry of the athlete's joints has its line; the back closes none, slight pain neither."""
    joints = [
        {"joint": "low-back", "pain": 4},
        {"joint": "patellar-knee", "side": "left", "pain": 1},
        {"joint": "patellar-knee", "side": "right", "pain": 4},
    ]
    planned, rule = problem("in-season", {"joints": joints}), rule_named("sore-tendon-drops")
    assert isinstance(rule, ClosingRule)
    assert rule.closing_field(planned, planned.library["drop-jump-20"]) == ("joints", 2)
    assert rule.closing_field(planned, planned.library["back-squat"]) == ("joints",)
    both = problem("in-season", {"joints": [{"joint": "achilles-ankle", "pain": 4}]})
    assert rule.closing_field(both, both.library["drop-jump-20"]) == ("joints", 0)


@pytest.mark.parametrize(
    ("movement", "rung"),
    [
        ("drop-jump-20", ("drop jumps", 0.2)),
        ("drop-to-stick-20", None),  # a landing
        ("alternate-bounds-80", ("bounds", 80.0)),
        ("broad-jumps-in-row", None),  # forward, on both legs
        ("one-leg-hops-in-row", None),  # forward, on one
        ("full-approach-jump-two-leg", ("run-up jumps", 100.0)),
        ("tall-pogo", None),
        ("back-squat", None),
    ],
)
def test_only_drop_jumps_bounds_and_run_up_jumps_are_on_a_ladder(movement: str, rung: tuple[str, float] | None) -> None:
    assert rung_of(shipped_library()[movement]) == rung


@pytest.mark.parametrize("rule", ["target-jump-weekly", "target-jump-grows"])
def test_where_no_target_jump_is_open_none_is_asked_for(rule: str) -> None:
    """Other jumps are open all the same."""
    planned = problem("adult")
    jumps = [one.id for one in planned.library if is_target_jump(planned, one)]
    without = problem("adult", {"bans": jumps})
    assert list(rule_named(rule).rows(planned)) and not list(rule_named(rule).rows(without))
    assert any(is_open(without, one) for one in without.library if one.jump is not None)


@pytest.mark.parametrize(
    ("days", "pairs"),
    [
        # Saturday is two days before the next Monday, in the last week too, whose Saturday is the test.
        (("mon", "sat"), {("hold/d2", "hold/d1"), ("hold/d2", "test/d1")}),
        (("mon", "wed"), {("hold/d1", "hold/d2"), ("w4/d1", "w4/d2")}),
        (("mon", "thu"), set()),  # three and four days apart
    ],
)
def test_a_novices_jump_days_are_three_days_apart_over_the_weekend_too(
    days: tuple[str, str], pairs: set[tuple[str, str]]
) -> None:
    training = {"days": [{"day": day, "minutes": 75} for day in days]}
    monday = datetime.date(2025, 9, 8)
    planned = changed_problem("in-season", {"level": "novice", "training": training}, start=monday)
    rows = list(rule_named("youth-jump-days").rows(planned))
    assert {(str(row.at._replace(movement=None, of=None)), str(row.other)) for row in rows} == pairs


def test_a_test_from_a_box_counts_up_to_just_the_contact_that_is_held() -> None:
    """The adult's contacts from 30 cm are 0.205, 0.210 and 0.205 s: 0.205 in the middle."""
    for held_s, found in ((0.205, True), (0.204, False)):
        progress = {"jump_progress": {"held_contact_s": held_s, "hops_calf_short": 0.15}}
        planned = changed_problem("adult", template=progress)
        assert bool(list(rule_named("tested-box").rows(planned))) is found
