"""``jumpblock test``: on a terminal, by options, from a sheet; old tests stay, a refusal writes nothing."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import pytest

from planner.domain.measure import TEST_KINDS, LiftTest
from planner.files.load import load_athlete
from planner.files.typed_tests import EXAMPLES, LEGS_OF, LISTS, READERS, entry_like, read_result, result_example
from planner.jobs.battery_results import open_battery
from planner.units import Unreadable
from tests.cli.conftest import CHECKOUT, change

DAY = datetime.date(2025, 11, 1)
METRIC = ("cm", "kg")
# A result of each kind in the demo's file, as it is typed, and what the file then holds.
TYPED = {
    "touch": ("3.14, 3.15, 3.13 m", {"trials": ["3.14 m", "3.15 m", "3.13 m"]}),
    "video-frames": ("104 152, 91 139 210", {"trials": [{"touch_down": 104, "take_off": 152},
                                                        {"touch_down": 91, "take_off": 139, "landing": 210}]}),
    "countermovement-jump": ("566, 570 ms", {"trials": ["566 ms", "570 ms"]}),
    "squat-jump": ("0.55", {"trials": ["0.55 s"]}),
    "loaded-jump": ("0: 0.55, 0.56; 20 kg: 0.48", {"sets": [{"load": "0 kg", "flights": ["0.55 s", "0.56 s"]},
                                                             {"load": "20 kg", "flights": ["0.48 s"]}]}),
    "isometric-force": ("2990, 3005", {"trials": ["2990 N", "3005 N"]}),
    "lift": ("132.5 x 4; 2 left", {"load": "132.5 kg", "reps": 4, "reps_in_reserve": 2}),
    "heel-raise": ("27", {"left": 27}),
    "isometric-calf": ("1.45 kN", {"left": "1.45 kN"}),
    "one-leg-hop": ("2.05, 2.10", {"left": ["2.05 m", "2.10 m"]}),
    "drop-jump": ("0.203 + 0.515, 0.206 + 0.51", {"trials": [{"contact": "0.203 s", "flight": "0.515 s"},
                                                             {"contact": "0.206 s", "flight": "0.51 s"}]}),
    "flying-sprint": ("1.27, 1.28", {"trials": ["1.27 s", "1.28 s"]}),
}  # fmt: skip


@pytest.fixture
def milo(tmp_path: Path) -> Path:
    path = tmp_path / "milo.yaml"
    path.write_bytes((CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml").read_bytes())
    return path


@pytest.fixture
def answer(monkeypatch, run, milo):
    """Run ``test`` as on a terminal and type these answers; the end of them is as Ctrl-D."""

    def type_it(*answers: str):
        monkeypatch.setattr("planner.cli.test.at_terminal", lambda: True)
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in answers)))
        return run("test", milo, "--today", "2025-11-01")

    return type_it


def new_tests(milo: Path):
    before = len(load_athlete(CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml").require().tests)
    return load_athlete(milo).require().tests[before:]


@pytest.mark.parametrize("kind", TYPED)
def test_each_kind_is_read_and_repeated_in_the_way_of_the_last(kind: str, milo: Path) -> None:
    battery = open_battery(str(milo))
    place = next(one for one in battery.places if one.last.kind == kind and one.side in (None, "left"))
    text, fields = TYPED[kind]
    assert read_result(place.last, place.side, text, METRIC) == fields
    battery.tell(place, DAY, text)
    milo.write_bytes(battery.raw())
    (test,) = new_tests(milo)
    same = {"date", "trials", "left", "right", "load", "reps", "reps_in_reserve", "sets", "note"}
    assert test.model_dump(exclude=same) == place.last.model_dump(exclude=same) and test.date == DAY


def test_every_kind_of_the_demo_is_tried(milo: Path) -> None:
    assert {one.last.kind for one in open_battery(str(milo)).places} == {*TYPED, "force-platform"}


def test_a_lift_has_its_name_of_the_printed_sheet_and_is_found_by_its_ids_words(milo: Path) -> None:
    battery = open_battery(str(milo))
    assert battery.place("one-leg calf raise, loaded bar left") == battery.place("loaded one leg calf raise left")


def test_splits_and_a_mat_are_read(milo: Path) -> None:
    last = load_athlete(milo).require().tests[0]
    splits, mat = (last.model_copy(update={"kind": kind}) for kind in ("sprint-splits", "contact-mat"))
    assert read_result(splits, None, "1.8 3.0, 1.9 3.1", METRIC) == {"trials": [["1.8 s", "3.0 s"], ["1.9 s", "3.1 s"]]}
    assert read_result(mat, None, "0.5, 0.2 + 0.51", METRIC)["trials"][0] == {"flight": "0.5 s"}
    jump = last.model_copy(update={"kind": "given-rise"})
    assert read_result(jump, None, "24", ("in", "lb")) == {"trials": ["24 in"]}


def test_by_options_comments_and_old_tests_stay(run, milo) -> None:
    before = milo.read_text("utf-8")
    outcome = run(
        "test", milo, "--date", DAY, "--result", "2", "3.14, 3.15 m", "--result", "heel-raise left", "27",
        "--result", "heel-raise right", "29", "--result", "back-squat", "132.5 kg x 4; 2 left",
        "--body-mass", "81.6 kg",
    )  # fmt: skip
    assert outcome.code == 0 and outcome.out == "" and "Written:" in outcome.err
    assert milo.read_text("utf-8").startswith(before.replace("body_mass: 81 kg ", "body_mass: 81.6 kg ").rstrip())
    touch, squat, raises = new_tests(milo)
    assert touch.trials == (3.14, 3.15) and isinstance(squat, LiftTest) and squat.reps_in_reserve == 2
    assert (raises.left, raises.right, raises.form) == (27, 29, "strict")
    assert run("gap", milo).code == 0


def test_two_days_are_two_tests(run, milo) -> None:
    for day, marks in (("2025-11-01", "3.14 m"), ("2025-11-04", "3.15 m")):
        assert run("test", milo, "--date", day, "--result", "2", marks).code == 0
    assert [str(test.date) for test in new_tests(milo)] == ["2025-11-01", "2025-11-04"]
    assert "last 2025-11-04: 3.15 m" in run("test", milo, "--show").out


def test_on_a_terminal_it_goes_through_the_sheet_with_the_last_result(answer, milo) -> None:
    outcome = answer("", "81.5", "3.14, 3.15, 3.13", *[""] * 40)
    assert outcome.code == 0
    said = outcome.err
    assert said.index("body mass") < said.index("last 2025-09-06: 3.10, 3.12, 3.11 m") < said.index("Drop jump")
    (touch,) = new_tests(milo)
    assert touch.date == DAY and len(touch.trials) == 3 and "body_mass: 81.5 kg" in milo.read_text("utf-8")


def test_a_wrong_answer_is_asked_again_and_an_interruption_keeps_what_was_told(answer, milo) -> None:
    outcome = answer("2025-11-02", "", "31.4 m", "3,14", "3.14 m")
    assert outcome.code == 0 and "interrupted; what was answered is kept" in outcome.err
    assert "4.5" in outcome.err and "write 3.14" in outcome.err
    (touch,) = new_tests(milo)
    assert (touch.date, touch.trials) == (datetime.date(2025, 11, 2), (3.14,))


def test_nothing_told_changes_nothing(answer, milo) -> None:
    before = milo.read_bytes()
    assert "nothing changes" in answer("", "", *[""] * 40).err and milo.read_bytes() == before


def test_a_sheet_of_trials(run, milo, tmp_path) -> None:
    sheet = tmp_path / "day.csv"
    sheet.write_text(
        "date,test,side,result,load (kg),reps,left\n2025-11-01,touch,,3.14,,,\n".replace("touch", "2")
        + "2025-11-01,2,,3.15,,,\n2025-11-04,back-squat,,,132.5,4,2\n2025-11-04,heel-raise,left,27,,,\n",
        "utf-8",
    )
    assert run("test", milo, "--from", sheet).code == 0
    touch, squat, raises = new_tests(milo)
    assert touch.trials == (3.14, 3.15) and squat.load == 132.5 and raises.left == 27


def test_every_wrong_cell_is_told_at_its_place_and_nothing_is_written(run, milo, tmp_path) -> None:
    before, sheet = milo.read_bytes(), tmp_path / "day.csv"
    sheet.write_text("date,test,side,result\nsoon,2,,3.14\n2025-11-01,trampoline,,3\n2025-11-01,2,,high\n", "utf-8")
    outcome = run("test", milo, "--from", sheet)
    assert outcome.code == 1 and "day.csv:2:1: [not-a-date]" in outcome.err
    sheet.write_text("date,test,side,result\n2025-11-01,trampoline,,3\n2025-11-01,2,,high\n", "utf-8")
    outcome = run("test", milo, "--from", sheet)
    assert "day.csv:2:4: [unknown-test]" in outcome.err and "day.csv:3:4: [not-a-result]" in outcome.err
    assert milo.read_bytes() == before and "Traceback" not in outcome.err
    sheet.write_text("a,b\n1,2\n", "utf-8")
    assert "[no-headings]" in run("test", milo, "--from", sheet).err


@pytest.mark.parametrize(
    ("word", "text", "code"),
    [
        ("2", "", "not-a-result"),
        ("2", "314 kg", "not-a-result"),
        ("2", "31.4 m", "out-of-range"),
        ("back-squat", "132.5 kg", "not-a-result"),
        ("back-squat", "132.5 kg x 25; 2 left", "out-of-range"),
        ("touch", "3.1 m", "unknown-test"),
        ("backsquat", "100 kg x 3", "unknown-test"),
        ("force-platform", "0.5", "not-a-result"),
        ("heel-raise left", "many", "not-a-result"),
    ],
)
def test_a_wrong_result_is_refused_with_what_to_do(run, milo, word, text, code) -> None:
    before = milo.read_bytes()
    outcome = run("test", milo, "--date", DAY, "--result", word, text)
    assert outcome.code == 1 and milo.read_bytes() == before and "Traceback" not in outcome.err
    assert "[" in outcome.err and code in outcome.err


def test_a_test_of_that_day_is_not_written_twice(run, milo) -> None:
    words = ("test", milo, "--date", DAY, "--result", "2", "3.14 m")
    assert run(*words).code == 0
    before = milo.read_bytes()
    assert "[same-day]" in run(*words).err and milo.read_bytes() == before


def test_misuse_and_dry_run(run, milo) -> None:
    before = milo.read_bytes()
    assert run("test", milo, "--result", "2", "3.1 m").code == 2
    assert run("test", milo).code == 2
    assert run("test", milo, "--from", "x.csv", "--result", "2", "3.1 m").code == 2
    assert "nothing was written" in run("test", milo, "--date", DAY, "--result", "2", "3.1 m", "--dry-run").err
    assert milo.read_bytes() == before
    assert "[cannot-read]" in run("test", milo.with_name("no-such.yaml"), "--show").err


def test_a_file_with_findings_is_refused_on_its_line(run, milo) -> None:
    change(milo, "body_mass: 81 kg", "body_mass: 81")
    outcome = run("test", milo, "--date", DAY, "--result", "2", "3.1 m")
    assert outcome.code == 1 and "milo.yaml:" in outcome.err


def test_what_is_unreadable_says_how_to_type_it() -> None:
    last = load_athlete(CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml").require().tests[0]
    with pytest.raises(Unreadable, match=r"type it like 3\.14, 3\.15, 3\.13 m"):
        read_result(last, None, " ", METRIC)
    assert entry_like(last, DAY, {})["method"] == last.method


@pytest.mark.parametrize(
    "name", ["deadlift", "Deadlift", "conventional deadlift", "straight-bar-hinge", "Straight bar hinge"]
)
def test_a_lift_is_named_as_the_file_the_card_or_the_trade_does(run, milo, name: str) -> None:
    text = milo.read_text("utf-8")
    line = "  - {kind: lift, date: 2025-09-01, movement: straight-bar-hinge, load: 150 kg, reps: 3, reps_in_reserve: 1}"
    milo.write_text(text.replace("\ntests:", f"\ntests:\n{line}", 1), "utf-8")
    told = run("test", milo, "--date", DAY, "--result", name, "155 kg x 3, 1 left")
    assert told.code == 0, told.err
    (test,) = [one for one in load_athlete(milo).require().tests if one.date == DAY]
    assert (test.movement, test.load, test.reps_in_reserve) == ("straight-bar-hinge", 155, 1)


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("front squat", "- {kind: lift, date: , movement: front-squat, load: , reps: , reps_in_reserve: }"),
        ("RDL", "movement: dumbbell-hinge or straight-leg-bar-hinge"),
    ],
)
def test_a_lift_that_was_never_tested_gets_the_line_to_write(run, milo, name: str, line: str) -> None:
    told = run("test", milo, "--date", DAY, "--result", name, "90 kg x 3; 1 left")
    assert told.code == 1 and "written into the file by hand, below tests" in told.err and line in told.err


def test_a_set_without_reps_left_is_told_as_the_gap_tells_it(run, milo) -> None:
    told = run("test", milo, "--date", DAY, "--result", "back-squat", "132.5 kg x 4")
    assert told.code == 0 and "read as taken to failure" in told.err and "132.5 kg x 4; 2 left" in told.err
    (test,) = new_tests(milo)
    assert "reps_in_reserve" not in test.model_fields_set
    assert "[no-reserve]" in run("gap", milo).err
    again = run("test", milo, "--date", "2025-11-05", "--result", "back-squat", "132.5 kg x 4; 0 left")
    assert again.code == 0 and "taken to failure" not in again.err


@pytest.mark.parametrize("units", [("cm", "kg"), ("in", "lb"), ("in", "kg")])
def test_what_a_question_shows_as_an_example_is_in_the_athletes_units_and_reads(units, milo: Path) -> None:
    last = {test.kind: test for test in load_athlete(milo).require().tests}
    for kind, test in last.items():
        if kind == "force-platform":
            continue
        shown = result_example(kind, units)
        typed = shown.partition(" (")[0]
        assert read_result(test, "left" if kind in LEGS_OF else None, typed, units)
        if (LISTS.get(kind) or LEGS_OF.get(kind)) == "length":
            assert shown.endswith(" in") == (units[0] == "in")
        if kind in ("lift", "loaded-jump"):
            assert ("lb" in shown) == (units[1] == "lb") and ("kg" in shown) == (units[1] == "kg")


@pytest.mark.parametrize("kind", [kind for kind in TEST_KINDS if kind != "force-platform"])
def test_every_kind_of_test_can_be_typed_and_has_an_example_of_its_own(kind: str) -> None:
    assert kind in {*LISTS, *LEGS_OF, *READERS}
    assert kind in EXAMPLES or (LISTS.get(kind) or LEGS_OF.get(kind)) is not None
