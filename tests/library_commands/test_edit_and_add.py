"""``jumpblock library edit`` and ``add``: what is written, what is refused, and what stays as it was."""

from __future__ import annotations

import difflib
from pathlib import Path

import pytest

from planner.domain.findings import UserError
from planner.files.edit_fields import read_assignments
from planner.files.edit_library import change_movement
from planner.files.load import load_library
from planner.files.locate import locate_library


def changed_lines(old: bytes, new: bytes) -> list[str]:
    lines = difflib.ndiff(old.decode().splitlines(keepends=True), new.decode().splitlines(keepends=True))
    return [line.rstrip("\r\n") for line in lines if line[0] in "+-"]


@pytest.fixture
def pogos(coach: Path) -> Path:
    return coach / "exercise_library/pogos.yaml"


def test_an_edit_changes_its_line_and_no_other(run, coach, pogos):
    old = pogos.read_bytes()
    outcome = run("library", "edit", "pogo", "dose.rest=75 s", "stress.achilles-ankle=2")
    assert outcome.code == 0, outcome.err
    assert [line[0] for line in changed_lines(old, pogos.read_bytes())] == ["-", "+", "-", "+"]
    movement = load_library(coach / "exercise_library").require()["pogo"]
    assert (movement.dose.rest, movement.stress["achilles-ankle"]) == (75, 2)
    assert "75 s" in outcome.out and "jumpblock library show pogo" in outcome.err


def test_a_dry_run_shows_the_same_and_writes_nothing(run, pogos):
    old = pogos.read_bytes()
    shown = run("library", "edit", "pogo", "level=intermediate", "--dry-run")
    assert shown.code == 0 and "+    level: intermediate" in shown.out
    assert pogos.read_bytes() == old
    assert run("library", "edit", "pogo", "level=intermediate").out == shown.out


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["stress.achilles-ankle=4"], "out-of-range", "the most allowed"),
        (["level=advancd"], "not-a-choice", "did you mean 'advanced'?"),
        (["harder=pogoo"], "unknown-movement", "did you mean"),
        (["dose.rest=75"], "quantity", "no unit"),
        (["equipment=barbel"], "unknown-equipment", "did you mean 'barbell'?"),
        (["cues="], "missing-field", "'cues'"),
        (["levle=advanced"], "unknown-field", "did you mean 'level'?"),
        (["dose.rst=75 s"], "unknown-field", "did you mean 'rest'?"),
        (["cautions="], "nothing-there", "no cautions"),
        (["jump={direction vertical"], "yaml-syntax", "brackets"),
        (["level"], "no-value", "field=value"),
        (["level=novice", "level=advanced"], "twice", "once"),
        (["jump="], "jump-without-jump", "without a 'jump' field"),
    ],
)
def test_a_wrong_edit_is_refused_in_words_and_writes_nothing(run, pogos, words, code, says):
    old = pogos.read_bytes()
    outcome = run("library", "edit", "pogo", *words)
    assert outcome.code == 1
    assert f"[{code}]" in outcome.err and says in outcome.err
    assert pogos.read_bytes() == old


def test_an_error_that_stood_there_before_does_not_bar_an_edit(run, coach, pogos):
    (coach / "exercise_library/squats.yaml").write_text("file: movements/1\nfamily: [\n", "utf-8")
    outcome = run("library", "edit", "pogo", "dose.rest=75 s")
    assert outcome.code == 0, outcome.err
    assert b"75 s" in pogos.read_bytes()


def test_a_broken_movement_can_be_put_right_by_an_edit(run, coach, pogos):
    pogos.write_text(pogos.read_text("utf-8").replace("level: novice", "level: novise", 1), "utf-8")
    first = pogos.read_text("utf-8").partition("- id: ")[2].partition("\n")[0]
    broken = [f for f in load_library(coach / "exercise_library").findings if f.level == "error"]
    assert [f.code for f in broken] == ["not-a-choice"]
    outcome = run("library", "edit", first, "level=novice")
    assert outcome.code == 0, outcome.err
    assert load_library(coach / "exercise_library").value is not None


def test_a_file_changed_meanwhile_is_not_overwritten(coach, pogos):
    change = change_movement(locate_library(None, coach), "pogo", read_assignments(["dose.rest=75 s"]))
    theirs = pogos.read_bytes() + b"# mine\n"
    pogos.write_bytes(theirs)
    with pytest.raises(UserError) as refusal:
        change.write()
    assert [finding.code for finding in refusal.value.findings] == ["changed-meanwhile"]
    assert pogos.read_bytes() == theirs


def test_windows_line_ends_and_a_byte_order_mark_stay(run, pogos):
    old = b"\xef\xbb\xbf" + pogos.read_bytes().replace(b"\n", b"\r\n")
    pogos.write_bytes(old)
    assert run("library", "edit", "pogo", "cautions=Not on a sore tendon", "level=intermediate").code == 0
    new = pogos.read_bytes()
    assert new.startswith(b"\xef\xbb\xbf") and new.count(b"\n") == new.count(b"\r\n")
    assert [line[0] for line in changed_lines(old, new)] == ["-", "+", "+", "+"]


def test_the_shipped_library_is_not_edited(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    outcome = run("library", "edit", "pogo", "level=advanced")
    assert outcome.code == 1 and "jumpblock start" in outcome.err


def test_a_movement_like_another(run, coach):
    path = coach / "exercise_library/accelerations.yaml"
    old = path.read_bytes()
    words = ["lean-start-20", "--like", "acceleration-20", "name=Lean-and-go sprint", "easier=acceleration-10"]
    outcome = run("library", "add", *words)
    assert outcome.code == 0, outcome.err
    assert {line[0] for line in changed_lines(old, path.read_bytes())} == {"+"}
    library = load_library("exercise_library").require()
    new, model = library["lean-start-20"], library["acceleration-20"]
    assert (new.name, new.stress, new.dose, new.easier, new.harder) == (
        "Lean-and-go sprint",
        model.stress,
        model.dose,
        "acceleration-10",
        None,
    )
    assert "jumpblock library edit acceleration-10 harder=lean-start-20" in outcome.err
    assert f"Written: {library.places['lean-start-20']};" in outcome.err


def test_a_movement_by_its_fields_makes_a_new_family(run, coach):
    outcome = run(
        *["library", "add", "towel-curl", "--family", "towel-curls", "kind=lift", "part=hamstring", "legs=both"],
        *["level=novice", "patterns=knee-flexion", "stress=hamstring: 2", "qualities=unilateral-hip: 1"],
        *["dose.scheme=hamstring-curl", "dose.set_time=40 s", "dose.rest=90 s"],
        *["cues=Slide out slowly", "cues=Hips high, heels in"],
    )
    assert outcome.code == 0, outcome.err
    library = load_library(coach / "exercise_library").require()
    assert library.families["towel-curl"] == "towel-curls"
    assert library["towel-curl"].cues == ("Slide out slowly", "Hips high, heels in")
    head = (coach / "exercise_library/towel-curls.yaml").read_text("utf-8").splitlines()
    assert head[0].startswith("# yaml-language-server") and head[1] == "file: movements/1"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["pogo", "--like", "pogo"], "written twice"),
        (["Bad Name", "--like", "pogo"], "not an id"),
        (["new-one", "--like", "pogoo"], "did you mean"),
        (["new-one", "kind=jump", "--family", "pogos"], "'cues' is missing"),
        (["new-one", "kind=jump"], "has no family"),
        (["new-one", "--like", "pogo", "jump.tier=hihg"], "did you mean 'high'?"),
    ],
)
def test_a_wrong_addition_is_refused_and_writes_nothing(run, coach, words, says):
    before = {path: path.read_bytes() for path in (coach / "exercise_library").iterdir()}
    outcome = run("library", "add", *words)
    assert outcome.code == 1
    assert says in outcome.err
    assert {path: path.read_bytes() for path in (coach / "exercise_library").iterdir()} == before


def test_a_movement_that_no_template_can_plan_is_told_when_it_is_added(run, coach):
    outcome = run("library", "add", "odd-pogo", "--like", "pogo", "dose.scheme=no-such-wave")
    assert outcome.code == 0 and "[unknown-scheme]" in outcome.err


def test_misuse_is_no_finding(run, coach):
    assert run("library", "add").code == 2
    assert run("library", "add", "one", "two", "--like", "pogo").code == 2
    assert run("library", "edit", "pogo").code == 2


def test_the_chain_is_led_through_a_new_step_by_the_commands_that_are_told(run, coach):
    """Every command that the note tells is run: then the chain goes through the new movement, both ways."""
    outcome = run("library", "add", "hop-over", "--like", "low-box-jump", "level=intermediate", "easier=low-box-jump")
    assert outcome.code == 0 and "pins: [{movement: hop-over}]" in outcome.err
    told = [line.partition("jumpblock ")[2].split() for line in outcome.err.splitlines() if "library edit" in line]
    while told:
        more = run(*told.pop())
        assert more.code == 0
        told += [line.partition("jumpblock ")[2].split() for line in more.err.splitlines() if "library edit" in line]
    library = load_library("exercise_library").require()
    assert (library["low-box-jump"].harder, library["hop-over"].harder) == ("hop-over", "box-jump")
    assert library["box-jump"].easier == "hop-over"


def test_a_movement_without_neighbours_is_told_how_to_get_one(run, coach):
    outcome = run("library", "add", "ankle-pogo-on-sand", "--like", "pogo")
    (told,) = [line for line in outcome.err.splitlines() if "not in a chain yet" in line]
    command = told.partition("jumpblock ")[2].split()
    assert run(*command).code == 0
    library = load_library(coach / "exercise_library").require()
    easier = library["ankle-pogo-on-sand"].easier
    assert easier is not None and library.families[easier] == "pogos" and library[easier].level == "novice"
    assert "not in a chain yet" not in run("library", "add", "pogo-too", "--like", "pogo", "easier=pogo").err


def test_a_copy_starts_from_the_trades_name_and_does_not_take_it_over(run, coach):
    words = ["library", "add", "deadlift-narrow", "--like", "conventional deadlift", "cues=Feet together"]
    assert run(*words).code == 0
    library = load_library(coach / "exercise_library").require()
    assert library["deadlift-narrow"].also == () and library["straight-bar-hinge"].also != ()
    assert library["deadlift-narrow"].source.startswith("Tags as for straight-bar-hinge")


def test_another_id_is_told_with_what_else_to_change(run, coach: Path) -> None:
    told = run("library", "edit", "shoulder-tap-plank", "id=tap-plank")
    assert told.code == 0, told.err
    assert "The movement is 'tap-plank' from now on; change 'shoulder-tap-plank' in athletes' files" in told.err
    assert "jumpblock library show tap-plank" in told.err
    assert "tap-plank" in load_library(coach / "exercise_library").require()
