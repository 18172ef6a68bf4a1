"""The gap's page: read in a minute, with every caution, and no line wider than a terminal."""

import json
import re

import pytest

from planner.domain.findings import UserError
from planner.estimate.estimate_gap import estimate_gap
from planner.report.gap_text import gap_json, gap_text
from planner.report.terminal import STEADY, table, wrap
from tests.estimate.people import DEMOS, demo, jumper, jumper_with

METRIC = re.compile(r"[\d.]+ (?:cm|mm|kg)\b|\d\.\d\d+ m\b(?!/)")
FIGURES = (
    "rise_m",
    "take_off_speed_m_s",
    "net_impulse_Ns",
    "mean_net_force_N",
    "mean_ground_force_N",
    "mean_ground_force_bw",
)
QUALITY_KEYS = {
    "quality", "side", "status", "have", "need", "unit", "deficit", "confidence", "emphasis", "source",
    "deficit_se", "emphasis_se", "counts",
}  # fmt: skip


def text_of(athlete, benchmarks, **options):
    return gap_text(estimate_gap(athlete, benchmarks), athlete, **options)


def one_line(text):
    return " ".join(text.split())


def test_json_has_every_named_key(benchmarks):
    data = json.loads(json.dumps(gap_json(estimate_gap(jumper(), benchmarks).gap), allow_nan=False))
    assert {"method", "contact_time_s", "push_off_m", "body_mass_kg", "inside_noise", "qualities"} <= set(data)
    for line in ("now", "target", "gap"):
        assert set(data[line]) == {*FIGURES, *(f"{figure}_se" for figure in FIGURES)}
    assert all(set(quality) == QUALITY_KEYS for quality in data["qualities"])
    assert {quality["status"] for quality in data["qualities"]} == {"tested", "untested"}


def test_page_tells_both_forces_both_percentages_and_pounds_where_the_file_has_them(benchmarks):
    assert "lbf" not in text_of(jumper(), benchmarks, full=True)
    text = one_line(text_of(jumper(print_as={"mass": "lb", "length": "in"}), benchmarks))
    assert "mean net force 1,157 ±" in text
    assert "mean GROUND force 1,883 ±" in text
    assert "(+7.9 %)" in text
    assert "(+27.3 %)" in text
    assert "423 ± 43 lbf" in text
    assert "2.59 ± 0.26 body weights" in text


def test_page_carries_its_cautions(benchmarks):
    text = one_line(text_of(jumper(), benchmarks))
    assert "not medical advice" in text
    assert "Technique and approach: not measured." in text
    assert "Most useful next test: rear-foot-elevated split squat" in text


def test_chain_ends_in_sets(benchmarks):
    base = {"maximal-strength": 9.0, "unilateral-hip": 7.0, "knee-dominant": 5.5, "calf-ankle": 7.5}
    text = one_line(text_of(jumper(), benchmarks, base_sets=base))
    assert "22 heel raises, strict -> 21.4 % short × confidence 14 % -> share × 1.12 -> 7.5 to 8.4 sets" in text
    assert "sets a week" not in text_of(jumper(), benchmarks)


def test_full_adds_what_if_errors_and_standing(benchmarks):
    short, full = (one_line(text_of(jumper(), benchmarks, full=option)) for option in (False, True))
    assert full.startswith(short)
    for line in ("now 2,024 N", "target 2,172 N", "target in 0.190 s", "0.237 s", "common practice, no source"):
        assert line in full
        assert line not in short


def test_noise_is_said_on_the_page(benchmarks):
    text = one_line(text_of(jumper(target={"touch": "3.07 m", "method": "touch"}), benchmarks, full=True))
    assert text.count("inside the noise") == 2


def test_second_page_names_every_test_under_its_quality(benchmarks):
    push = {"kind": "isometric-calf", "left": "1400 N", "right": "1500 N"}
    page = text_of(jumper_with(push), benchmarks, full=True)
    rows = page.split("EVERY TEST OF A QUALITY, COUNTED OR NOT\n")[1].split("\n\n")[0].splitlines()
    calf = [" ".join(row.split()) for row in rows[rows.index("calf strength") + 1 : rows.index("fast force and speed")]]
    assert [row.split(" ")[0] for row in calf] == ["isometric", "isometric", "heel", "heel"]
    assert calf[0].startswith("isometric calf left 1,400 N 1,")
    assert calf[2].startswith("heel raise left (22 reps) (28 reps) (21.4 % short)")
    assert "rear foot split squat each untested 1,291 N" in one_line(page)


def test_strong_and_sure_is_said(benchmarks):
    heavy = {"kind": "lift", "movement": "back-squat", "load": "185 kg", "reps": 3}
    assert "maintenance from the intensify phase" in one_line(text_of(jumper_with(heavy), benchmarks))


def test_inches_for_those_who_print_inches(benchmarks):
    text = text_of(jumper(print_as={"length": "in", "mass": "lb"}), benchmarks)
    assert "120.1 in" in text  # 3.05 m
    assert "5.9 ± " in text  # 15 cm up
    assert not METRIC.findall(text)


IN_INCHES = {"print_as": {"length": "in", "mass": "lb"}}
OF_EVERY_SORT = (
    {"kind": "lift", "movement": "rear-foot-split-squat", "side": "left", "load": "90 lb", "reps": 6},
    {"kind": "lift", "movement": "rear-foot-split-squat", "side": "right", "load": "90 lb", "reps": 6},
    {"kind": "lift", "movement": "back-squat", "load": "255 lb", "reps": 3, "reps_in_reserve": 6},
    {"kind": "drop-jump", "drop": "40 cm", "trials": [{"contact": "0.2 s", "flight": "0.42 s"}]},
    {"kind": "countermovement-jump", "arms": "free", "trials": ["0.62 s", "0.61 s"]},
    {"kind": "touch", "take_off": "two-leg", "run_up": False, "trials": ["2.65 m"]},
    {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.15 m"]},
    {"kind": "one-leg-hop", "left": ["2.0 m"], "right": ["1.5 m"]},
)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"target": {"touch": "3.00 m", "method": "touch"}},
        {"target": {"rise": "60 cm", "method": "given"}},
        {"take_off": "two-leg", "approach": {"steps": 0}},
        {"tip_toe_reach": "2.50 m"},
    ],
    ids=["touch", "below the present", "another method", "from a stand", "tip-toe measured"],
)
def test_no_centimetre_and_no_kilogram_for_those_who_print_inches_and_pounds(benchmarks, changes):
    """Story, page, findings and, up to the sources of the figures (quoted as published), the second page."""
    athlete = jumper_with(*OF_EVERY_SORT, **IN_INCHES, **changes)
    result = estimate_gap(athlete, benchmarks)
    full = one_line(gap_text(result, athlete, full=True)).split("SOURCES OF THE FIGURES")[0]
    said = re.sub(r"\([^()]*common practice[^()]*\)", "", full)  # sources are quoted as written
    assert METRIC.findall(said) == []
    assert METRIC.findall(" ".join([*result.gap.story, *result.gap.notes])) == []
    assert {finding.code for finding in result.findings} >= {"rebound-low", "drop-height", "reserve-is-a-guess"}


def test_refusals_speak_inches_too(benchmarks):
    low = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["2.45 m"]}
    for athlete in (jumper([low], **IN_INCHES), jumper(target={"touch": "2.45 m", "method": "touch"}, **IN_INCHES)):
        with pytest.raises(UserError) as caught:
            estimate_gap(athlete, benchmarks)
        assert METRIC.findall(" ".join(finding.message for finding in caught.value.findings)) == []


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("full", [False, True])
def test_demo_pages_fit_the_width(benchmarks, name, full):
    text = text_of(demo(name), benchmarks, full=full)
    assert max(len(line) for line in text.splitlines()) <= 100
    assert "nan" not in text.split()


def test_wrap_keeps_numbers_and_units_together():
    text = "word " * 17 + "and 116 ± 17 N more"
    assert len(text) > STEADY
    assert "116 ± 17 N" in wrap(text).splitlines()[1]


def test_table_aligns_columns():
    assert table([["a", "b"], ["long", "1.00"]]) == "a        b\nlong  1.00"


def full_text(benchmarks, *tests):
    return one_line(text_of(jumper_with(*tests), benchmarks, full=True))


def test_page_says_what_a_retest_can_show_and_what_a_block_may_bring(benchmarks):
    text = one_line(text_of(jumper(), benchmarks))
    assert "a change under 7 cm is noise" in text
    assert "1.5 cm would be worth having" in text
    assert "about 4 to 8 blocks at best" in text


def test_next_test_comes_with_its_reason(benchmarks):
    assert "It tests one-leg hip strength: about 7 sets of a usual week, untested." in one_line(
        text_of(jumper(), benchmarks)
    )


def test_full_shows_both_formulas_errors_kinds_and_other_legs(benchmarks):
    text = full_text(benchmarks)
    assert "Epley 140 kg, Brzycki 135 kg; used 137.5 ±" in text
    assert "fast force and speed (both): has 2,404 ± 140 N; 6.1 ± 9." in text
    assert "% short (test, curve and target), emphasis × 1.12 ± 0." in text
    assert "One trial of the usual 3 errs by 2 cm, read to 1 cm, a day by 1.5 cm (common practice, no source)." in text
    assert "The target's rise off two legs, shared by both:" in text


def test_full_shows_every_height_under_its_method(benchmarks):
    text = full_text(benchmarks, {"kind": "countermovement-jump", "trials": ["0.55 s"]})
    assert "countermovement jump, two-leg from a stand, hands on hips, by flight time (2025-02-06): rise 37.1 ±" in text
    assert "this one counts" in text
    assert "These are different quantities" in text


def test_difference_of_the_legs_is_on_the_page_only_beyond_its_error(benchmarks):
    far = {"kind": "isometric-calf", "left": "1100 N", "right": "1500 N"}
    assert "seated isometric calf push (2025-02-06): left weaker by 27 ± " in one_line(
        text_of(jumper_with(far), benchmarks)
    )
    near = {"kind": "isometric-calf", "left": "1480 N", "right": "1500 N"}
    assert "weaker by" not in one_line(text_of(jumper_with(near), benchmarks))
    assert "no difference beyond the error" in full_text(benchmarks, near)


def test_second_opinions_stand_with_their_cautions_on_request(benchmarks):
    sets = [{"load": f"{load} kg", "flights": [f"{time} s"]} for load, time in ((0, 0.53), (25, 0.45), (50, 0.37))]
    test = {"kind": "loaded-jump", "form": "squat", "push_off": "40 cm", "sets": sets}
    short, full = one_line(text_of(jumper_with(test), benchmarks)), full_text(benchmarks, test)
    assert "force-velocity imbalance" not in short
    assert "force-velocity imbalance" in full
    assert "Caution: weak evidence" in full
    assert "reactive strength index, height over contact" in full
    assert "reactive strength index, flight over contact" in full
