"""``jumpblock new``: a short file from options, each answer held to the file's own line, and the gap."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from planner.files.load import load_athlete
from planner.jobs.new_athlete import questions, usual_gyms
from planner.report import terminal

SAID = {
    "name": "Ana Prado",
    "born": "1998-03-02",
    "mass": "157 lbs",
    "stature": "5'9\"",
    "reach": "7 ft 3",
    "take-off": "one-leg left",
    "steps": "5",
    "touches": "113 1/2 in, 114 in",
    "tested": "2025-09-01",
    "target": "117 in",
    "level": "intermediate",
    "landing": "yes",
    "pain": "-",
    "days": "Monday 60, wed 60 min, fri 75",
    "sport": "-",
    "gym": "full-gym-lb",
    "lift": "back squat 185 lb x 4, 2 left",
    "week": "120, 10, 40",
}


def options(**changed: str | None) -> list[str]:
    said = SAID | {key.replace("_", "-"): value for key, value in changed.items()}
    return [word for key, value in said.items() if value is not None for word in (f"--{key}", value)]


def test_options_write_a_file_of_about_forty_lines_and_show_the_gap(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    told = run("new", path, *options())
    assert told.code == 0 and told.out.startswith("FORCE GAP\nAna Prado, off the left leg, 5-step run-up")
    assert told.err.rstrip().endswith(f"Next: jumpblock plan {path} -o {tmp_path}/ana-block.yaml")
    text = path.read_text("utf-8")
    assert 25 <= len(text.splitlines()) <= 45 and text.count("#") >= 5
    athlete = load_athlete(path).require()
    assert athlete.print_as.mass == "lb" and athlete.print_as.length == "in"
    assert [(one.day, one.minutes) for one in athlete.training.days] == [("mon", 60), ("wed", 60), ("fri", 75)]
    assert athlete.recent_load is not None and athlete.recent_load.weekly_working_sets == 40
    assert athlete.tests[1].movement == "back-squat" and athlete.tests[1].reps_in_reserve == 2  # type: ignore[union-attr]


@pytest.mark.parametrize("width", [60, 80, 120])
@pytest.mark.parametrize("mass", ["71 kg", "157 lb"])
def test_a_question_fits_the_terminal_and_is_in_the_units_of_the_mass(
    width: int, mass: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(terminal, "columns", lambda: width)
    asked = [terminal.fit(f"{one.asked({'mass': mass})} [{one.enter}]:") for one in questions(Path())]
    assert [line for text in asked for line in text.splitlines() if len(line) > width] == []
    units = re.findall(r"(?<=\d )(?:kg|cm|m|lb|in)\b|(?<=\d)'", "\n".join(asked))
    assert set(units) == ({"lb", "in", "'"} if "lb" in mass else {"kg", "cm", "m"})
    gym = next(one.asked({}) for one in questions(Path()) if one.key == "gym")
    *choices, question = gym.strip("\n").splitlines()
    assert [line.split()[0] for line in choices] == list(usual_gyms(Path())) and question == "Gym"


def test_help_has_the_options_in_the_order_of_the_questions(run) -> None:
    listed = re.findall(r"^  (?:-\w, )?--(\S+)", run("new", "--help").out, re.MULTILINE)
    assert listed == [*(one.key for one in questions(Path())), "help"]


def test_what_may_be_left_out_is_named_in_a_note(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    assert run("new", path, *options(lift=None, week=None)).code == 0
    text = path.read_text("utf-8")
    assert "# recent_load:" in text and "# - {kind: lift" in text
    assert load_athlete(path).require().recent_load is None


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"mass": "157"}, "--mass: 157 has no unit; write for example 157 kg"),
        ({"take_off": "left leg"}, "--take-off:"),
        ({"touches": "113 in, 114"}, "--touches: 114 has no unit"),
        ({"born": "3/2/1998"}, "--born: write year-month-day, such as 2001-05-17"),
        ({"days": "mon"}, "--days: write each day with its minutes: mon 60, wed 60, sat 75"),
        ({"gym": "full"}, "--gym: did you mean 'full-gym'?"),
        ({"gym": ""}, "--gym: use one of: full-gym, full-gym-lb"),
        ({"lift": "squat"}, "--lift: write lift, load, reps and how many were left"),
        ({"week": "many"}, "--week: three whole numbers"),
        ({"steps": "two"}, "--steps: a whole number from 0 to 20"),
        ({"pain": "knee"}, "--pain: write side, joint and 0 to 10: left knee 2, low back 1"),
        ({"pain": "left knee 11"}, "--pain: write side, joint and 0 to 10"),
        ({"pain": "left knee 2, left knee 3"}, "--pain: left patellar-knee is given twice"),
        ({"sport": "tue practice 900"}, "--sport: '900' is more than 300"),
        ({"days": "mon 900"}, "--days: '900' is more than"),
        ({"pain": "left elbow 2"}, "--pain: 'elbow' is not a joint"),
        ({"sport": "tue 90"}, "--sport: write day, practice or match, minutes and jumps"),
        ({"name": None}, "--name is missing"),
    ],
)
def test_an_answer_is_refused_with_what_to_write_and_nothing_is_written(
    run, tmp_path: Path, changed: dict[str, str | None], says: str
) -> None:
    path = tmp_path / "ana.yaml"
    told = run("new", path, *options(**changed))
    assert told.code == 2 and says in told.err
    assert not path.exists()


def test_sport_and_pain_stand_in_the_file(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    sport = "tue practice 90, Thursday practice 75 min 60 jumps, sat match 70"
    assert run("new", path, *options(sport=sport, pain="left knee 2, low back 1")).code == 0
    athlete = load_athlete(path).require()
    practices = [(one.day, one.minutes, one.hardness, one.contacts) for one in athlete.practices]
    assert practices == [("tue", 90, "medium", 0), ("thu", 75, "medium", 60)]
    assert [(one.day, one.minutes, one.hardness) for one in athlete.matches] == [("sat", 70, "hard")]
    assert [(one.joint, one.side, one.pain) for one in athlete.joints] == [
        ("patellar-knee", "left", 2),
        ("low-back", None, 1),
    ]


def test_pain_that_no_block_is_planned_over_is_told_and_no_plan_comes_next(run, tmp_path: Path) -> None:
    told = run("new", tmp_path / "ana.yaml", *options(pain="left knee 6"))
    assert told.code == 0 and "warning: [pain] pain 6 of 10 in the left knee" in told.err
    assert "jumpblock plan" not in told.err


@pytest.mark.parametrize("nothing", ["none", "No", "0", "-"])
def test_nothing_hurts_and_no_sport_in_a_coachs_words(run, tmp_path: Path, nothing: str) -> None:
    path = tmp_path / "ana.yaml"
    assert run("new", path, *options(sport=nothing, pain=nothing)).code == 0
    athlete = load_athlete(path).require()
    assert (athlete.joints, athlete.practices, athlete.matches) == ((), (), ())


@pytest.mark.parametrize("told", ["left knee 2,right knee 1", "knee left 2/10; right knee 1 of 10"])
def test_pain_is_read_as_it_is_said(run, tmp_path: Path, told: str) -> None:
    path = tmp_path / "ana.yaml"
    assert run("new", path, *options(pain=told)).code == 0
    joints = [(one.joint, one.side, one.pain) for one in load_athlete(path).require().joints]
    assert joints == [("patellar-knee", "left", 2), ("patellar-knee", "right", 1)]


def test_a_lift_that_the_library_lacks_is_refused_before_anything_is_written(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    told = run("new", path, *options(lift="bakc-squat 80 kg x 5, 2 left"))
    assert told.code == 2 and "did you mean 'back-squat'?" in told.err
    assert not path.exists()


@pytest.mark.parametrize(
    ("typed", "is_read_as"),
    [("deadlift", "straight-bar-hinge"), ("Back Squat", "back-squat"), ("Romanian deadlift", "straight-leg-bar-hinge")],
)
def test_the_trades_name_of_a_lift_will_do(run, tmp_path: Path, typed: str, is_read_as: str) -> None:
    path = tmp_path / "ana.yaml"
    assert run("new", path, *options(lift=f"{typed} 185 lb x 4, 2 left")).code == 0
    assert f"movement: {is_read_as}, load: 185 lb, reps: 4, reps_in_reserve: 2" in path.read_text("utf-8")


def test_several_lifts_are_each_a_test_of_the_file(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    assert run("new", path, *options(), "--lift", "deadlift 225 lb x 5", "--lift", "-").code == 0
    lifts = [(one.movement, one.reps) for one in load_athlete(path).require().tests if one.kind == "lift"]
    assert lifts == [("back-squat", 4), ("straight-bar-hinge", 5)]


def test_on_a_terminal_the_lift_is_asked_again_until_enter(run, tmp_path: Path, monkeypatch) -> None:
    path = tmp_path / "ana.yaml"
    monkeypatch.setattr("planner.cli.new.at_terminal", lambda: True)
    for typed, expected in ((("deadlift 225 lb x 5", "squat", "front squat 185 lb x 3", ""), 2), (("",), 0)):
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in typed)))
        told = run("new", path, *options(lift=None))
        assert told.code == 0 and told.err.count("Another lift (Enter: no more)") == len(typed) - 1
        assert sum(one.kind == "lift" for one in load_athlete(path).require().tests) == expected
        path.unlink()


def test_a_name_of_several_lifts_is_refused_with_each(run, tmp_path: Path) -> None:
    told = run("new", tmp_path / "ana.yaml", *options(lift="RDL 185 lb x 4, 2 left"))
    assert told.code == 2 and "write dumbbell-hinge or straight-leg-bar-hinge" in told.err


def test_a_usual_gym_with_unknown_equipment_is_refused_on_its_own_line(run, tmp_path: Path) -> None:
    assert run("start", tmp_path / "coach").code == 0
    gyms, path = tmp_path / "coach" / "templates" / "gyms" / "standard.yaml", tmp_path / "coach" / "ana.yaml"
    gyms.write_text(gyms.read_text("utf-8").replace("dumbbells", "dumbells", 1), "utf-8")
    told = run("new", path, *options())
    assert told.code == 1 and "[unknown-equipment]" in told.err and "gyms/standard.yaml:8:28:" in told.err
    assert not path.exists()


def test_a_file_that_is_there_is_not_overwritten(run, tmp_path: Path) -> None:
    path = tmp_path / "ana.yaml"
    path.write_text("mine", "utf-8")
    told = run("new", path, *options())
    assert told.code == 1 and "already exists" in told.err
    assert path.read_text("utf-8") == "mine"


def test_a_folder_that_is_missing_is_made(run, tmp_path: Path) -> None:
    assert run("new", tmp_path / "club" / "ana.yaml", *options()).code == 0
    assert (tmp_path / "club" / "ana.yaml").is_file()


@pytest.mark.parametrize("gym", list(usual_gyms(Path())))
def test_every_usual_gym_makes_a_file_that_reads(run, tmp_path: Path, gym: str) -> None:
    path = tmp_path / "ana.yaml"
    told = run("new", path, *options(gym=gym, lift=None))
    assert told.code == 0, told.err
    assert load_athlete(path).require().equipment.runway
