"""Every movement is whole: it loads without a finding, its neighbours form chains, its dose is one a template knows."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import LEVELS
from planner.files.document import Loaded
from planner.files.load import load_template, review_of
from planner.files.references import library_references
from planner.files.render import format_finding
from planner.files.sense.library_sense import library_sense, movement_sense

ROOT = Path(__file__).resolve().parents[2]
LEAST_MOVEMENTS = 140
LONGEST_NAME = 40  # characters that fit one line of a card
LONGEST_CUE = 70

SCHEMES_BY_KIND = {
    "lift": {
        "main-lift",
        "accommodating-lift",
        "partial-lift",
        "novice-lift",
        "one-leg-lift",
        "hip-assistance",
        "calf-raise",
        "eccentric-hamstring",
        "hamstring-curl",
        "isolation",
        "trunk-reps",
    },
    "hold": {"hold", "calf-hold", "tendon-hold"},
    "jump": {
        "low-tier-jump",
        "landing-drill",
        "medium-tier-jump",
        "high-tier-jump",
        "forward-hop",
        "approach-jump-full",
        "approach-jump-submax",
        "build-up-jumps",
    },
    "skill": {"skill-drill"},
    "sprint": {"acceleration", "flying-sprint", "resisted-sprint"},
}
TIER_OF_SCHEME = {
    "low-tier-jump": "low",
    "landing-drill": "low",
    "medium-tier-jump": "medium",
    "high-tier-jump": "high",
    "forward-hop": "high",
    "approach-jump-full": "high",
    "approach-jump-submax": "medium",
    "build-up-jumps": "medium",
    "skill-drill": "low",
}
# Ids that athletes' tests name.
TESTED_LIFTS_AND_JUMPS = [
    "back-squat",
    "straight-bar-hinge",
    "trap-bar-hinge",
    "rear-foot-split-squat",
    "heel-raised-one-leg-squat",
    "loaded-one-leg-calf-raise",
    "one-leg-hip-thrust",
    "goblet-squat",
    "drop-jump-30",
    "full-approach-jump-one-leg",
    "full-approach-jump-two-leg",
    "countermovement-jump",
    "pogo",
    "nordic-curl",
]


def test_it_loads_without_a_finding(loaded: Loaded[Library]) -> None:
    own = library_sense(loaded, review_of(loaded.require()))
    findings = [*loaded.findings, *library_references(loaded), *movement_sense(loaded), *own]
    assert [format_finding(f) for f in findings] == []


def test_it_is_large_enough_to_choose_from(library: Library) -> None:
    assert len(library) >= LEAST_MOVEMENTS


def test_each_name_is_used_once(library: Library) -> None:
    names = Counter(movement.name.casefold() for movement in library)
    assert [name for name, count in names.items() if count > 1] == []


def test_names_and_cues_fit_a_card(library: Library) -> None:
    long_names = [m.id for m in library if len(m.name) > LONGEST_NAME]
    long_cues = [(m.id, cue) for m in library for cue in m.cues if len(cue) > LONGEST_CUE]
    assert long_names == []
    assert long_cues == []


@pytest.mark.parametrize("movement_id", TESTED_LIFTS_AND_JUMPS)
def test_movements_that_tests_name_exist(library: Library, movement_id: str) -> None:
    assert movement_id in library


@pytest.mark.parametrize("field", ["easier", "harder"])
def test_neighbours_form_chains_that_end(library: Library, field: str) -> None:
    for start in library:
        chain, at = [start.id], getattr(start, field)
        while at is not None:
            assert at not in chain, f"{field} goes round: {chain}"
            chain.append(at)
            at = getattr(library[at], field)


def test_harder_never_leads_to_a_lower_level(library: Library) -> None:
    downwards = [
        (m.id, m.harder) for m in library if m.harder and _rank(library[m.harder]) < _rank(m)
    ]  # easier is held to the same by library_sense
    assert downwards == []


def test_neighbours_stay_in_the_family(library: Library) -> None:
    astray = [
        (m.id, other)
        for m in library
        for other in (m.easier, m.harder)
        if other and library.families[other] != library.families[m.id]
    ]
    assert astray == []


def test_chains_lead_from_novice_to_advanced(library: Library) -> None:
    """A coach who starts with a novice squat finds the way up, step by step."""
    at, seen = library["shallow-squat"], []
    while at.harder is not None:
        seen.append(at.id)
        at = library[at.harder]
    assert at.level == "advanced"
    assert "goblet-squat" in seen and "back-squat" in seen


def test_schemes_fit_the_kind(library: Library) -> None:
    assert [m.id for m in library if m.dose.scheme not in SCHEMES_BY_KIND[m.kind]] == []


@pytest.mark.parametrize("path", sorted((ROOT / "templates" / "blocks").glob("*.yaml")), ids=lambda p: p.stem)
def test_shipped_templates_dose_every_movement(library: Library, path: Path) -> None:
    template = load_template(path).value
    assert template is not None
    assert [m.id for m in library if m.dose.scheme not in template.schemes] == []


def test_jumps_and_sprints_say_what_they_are(library: Library) -> None:
    for m in library:
        assert (m.jump is not None) if m.kind == "jump" else (m.jump is None or m.kind == "skill"), m.id
        assert (m.sprint is not None) == (m.kind == "sprint"), m.id


def test_contacts_need_a_landing(library: Library) -> None:
    assert [m.id for m in library if m.dose.scheme in TIER_OF_SCHEME and m.kind == "jump" and not m.jump] == []


def test_tiers_agree_with_schemes(library: Library) -> None:
    other = [(m.id, m.jump.tier) for m in library if m.jump and m.jump.tier != TIER_OF_SCHEME[m.dose.scheme]]
    assert other == []


def test_approach_jumps_of_one_leg_use_the_take_off_leg(library: Library) -> None:
    for m in library:
        if m.part == "approach-jump" and m.legs == "one":
            assert m.jump is not None and m.jump.take_off_leg_only, m.id
        if m.jump is not None and m.jump.take_off_leg_only:
            assert m.legs == "one" and m.runway > 0, m.id


def test_approach_jumps_and_drills_say_whose_take_off_they_are(library: Library) -> None:
    """Run-throughs serve both; everything else of the run-up is for one kind of jumper."""
    for m in library:
        if m.part == "approach-jump" or (m.part == "skill" and m.jump is not None):
            assert m.take_off == ("two-leg" if m.legs == "both" else "one-leg"), m.id
        elif m.part != "skill":
            assert m.take_off is None, m.id


def test_every_source_says_where_tags_come_from(library: Library) -> None:
    assert [m.id for m in library if "common practice, no source" not in m.source] == []


def test_other_names_add_something(library: Library) -> None:
    """None repeats the movement's own id or name, or is the id of another, which would be the one found."""
    for m in library:
        assert not {plain(name) for name in m.also} & {m.id, plain(m.name)}, m.id
        assert len({plain(name) for name in m.also}) == len(m.also), m.id
        assert not {plain(name) for name in m.also} & set(library.movements), m.id


# Minutes of one set with its rest, both sides where each leg is worked apart: common practice, no source.
MINUTES = {
    "back-squat": 4.25,
    "straight-bar-hinge": 4.25,
    "rear-foot-split-squat": 3.5,
    "loaded-one-leg-calf-raise": 2.25,
    "pogo": 1.25,
    "low-hurdle-hops": 1.9,
    "one-leg-countermovement-jump": 1.9,
    "drop-jump-30": 2.75,
    "full-approach-jump-one-leg": 2.25,
    "acceleration-20": 3.0,
    "flying-10": 4.0,
    "side-plank": 1.2,
    "nordic-curl": 2.5,
}
MINUTES_TOLERANCE = 0.15


@pytest.mark.parametrize(("movement_id", "minutes"), MINUTES.items())
def test_sets_take_the_time_coaches_plan_for_them(library: Library, movement_id: str, minutes: float) -> None:
    m = library[movement_id]
    sides = 2 if m.legs == "one" and not (m.jump and m.jump.take_off_leg_only) else 1
    assert (m.dose.set_time * sides + m.dose.rest) / 60 == pytest.approx(minutes, abs=MINUTES_TOLERANCE)


def plain(name: str) -> str:
    return "-".join(name.lower().replace("-", " ").split())


def _rank(movement: Movement) -> int:
    return LEVELS.index(movement.level)
