"""What a log must not say is found on its line, with what to do."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from planner.files.load import load_log
from planner.files.log_references import without_load
from planner.jobs.check_files import FileChecker
from tests.past.logs import findings, log_text, written
from tests.rules.kept_blocks import kept_block
from tests.solve.demos import shipped_library

# What is broken: the text replaced, what replaces it, the finding's code, words of its message and of its hint.
BROKEN = {
    "a session the block does not have": ("session: w1s1", "session: w11s1", "unknown-session", "'w11s1'", "'w1s1'?"),
    "an item the block does not have": ("item: w1s1i4", "item: w1s1i44", "unknown-item", "'w1s1i44'", "'w1s1i4'?"),
    "an item of another session": ("item: w1s1i4", "item: w1s2i4", "unknown-item", "w1s1 has no", "an item of w1s2"),
    "two entries": ("session: w1s2", "session: w1s1", "two-entries", "'w1s1' has two entries", "keep one"),
    "two lines for an item": ("item: w1s1i3", "item: w1s1i4", "two-entries", "two lines", "keep one"),
    "effort above the scale": ("effort: 7", "effort: 11", "out-of-range", "'11'", ""),
    "a load without a unit": ("load: 100 kg", "load: 100", "quantity", "100 has no unit", "100 kg"),
    "a load in pounds": ("load: 100 kg", "load: 220 kg", "load-far-from-plan", "220 kg; the card has 100", "unit"),
    "reps typed twice": ("[6, 6, 5, 6]", "[60, 6, 5, 6]", "reps-far-above-plan", "60 reps; the card", "mean 6?"),
    "reps far above": ("[6, 6, 5, 6]", "[27, 6, 5, 6]", "reps-far-above-plan", "27 reps; the card", "check the"),
    "no such joint": ("patellar-knee", "patelar-knee", "not-a-choice", "'patelar-knee'", "'patellar-knee'?"),
    "reps of fewer sets": ("sets: 1,", "sets: 2, reps: [4],", "sets-disagree", "2 sets, and reps of 1", "every set"),
    "more reserves than sets": ("[4, 3, 2]}", "[4, 3, 2, 1, 0]}", "sets-disagree", "of 5", "at most"),
    "load and loads": (
        "load: 100 kg,", f"load: 100 kg, loads: [{', '.join(['100 kg'] * 4)}],", "load-twice", "both", "keep load",
    ),
    "missed without a reason": ("missed, why: ill", "missed", "no-reason", "does not say why", "add why: ill"),
    "missed and yet done": ("missed, why: ill", "missed, why: ill, effort: 3", "missed-but-done", "effort", "delete"),
    "done and yet a reason": ("effort: 7", "why: ill", "not-missed", "w1s1 was done", "note"),
    "done without a date": ("    date: 2026-01-05\n", "", "no-date", "has no date", "add date"),
    "the wrong month": ("date: 2026-01-05", "date: 2026-03-05", "far-from-plan", "59 days after", "2026-01-05"),
    "a load on a jump": ("sets: 1, why", "load: 100 kg, sets: 1, why", "no-lift", "a jump without a load", "move it"),
    "touches of a lift": ("load: 100 kg,", "touches: [3.10 m],", "no-jump", "not a jump", "move them"),
    "pain without a figure": (", before: 1, worst: 3, next_morning: 2", "", "no-figure", "no figure", "add before"),
    "a field misspelt": ("minutes: 66", "minuts: 66", "unknown-field", "'minuts'", "'minutes'?"),
    "another day's order": (
        "{session: w1s2, done: missed, why: ill}", "{session: w1s2, date: 2026-01-04, done: changed}",
        "dates-out-of-order", "w1s2 is dated 2026-01-04, before w1s1", "go by date",
    ),
    "no block there": ("path: ana-block.yaml", "path: anna-block.yaml", "cannot-read", "not at anna-block.yaml", "fix"),
}  # fmt: skip
WARNINGS = {"load-far-from-plan", "reps-far-above-plan", "far-from-plan"}


def test_the_log_itself_is_fine(tmp_path: Path) -> None:
    assert findings(tmp_path, log_text()) == []


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_broken_is_found_on_its_line(name: str, tmp_path: Path) -> None:
    old, new, code, message, hint = BROKEN[name]
    text = log_text((old, new))
    (found,) = findings(tmp_path, text)
    assert (found.code, found.level) == (code, "warning" if code in WARNINGS else "error")
    assert message in found.message and hint in found.hint
    changed_at = log_text()[: log_text().index(old)].count("\n") + 1
    assert abs(found.line - changed_at) <= 1, "on the line of the change, or of the entry it is in"


def test_a_movement_that_the_library_does_not_have(tmp_path: Path) -> None:
    shutil.copytree(Path(__file__).parents[2] / "exercise_library", tmp_path / "exercise_library")
    path = written(tmp_path, log_text(("item: w1s1i4,", "item: w1s1i4, movement: frunt-squat,")))
    block = tmp_path / "ana-block.yaml"
    block.write_text(block.read_text("utf-8").replace("library: {path: ilse.yaml", "library: {path: exercise_library"))
    found = [one for one in FileChecker().check(path) if one.code == "unknown-movement"]
    assert [(one.line, one.hint) for one in found] == [(10, "did you mean 'front-squat'?")]


def test_another_block_says_which_entries_still_fit(tmp_path: Path) -> None:
    path = written(tmp_path, log_text(("path: ana-block.yaml, plan_sha256: ", "path: ana-block.yaml, plan_sha256: 0")))
    (found,) = FileChecker().check(path)
    assert (found.code, found.level, found.line) == ("changed-block", "warning", 2)
    assert "all 2 entries still fit" in found.message
    block = tmp_path / "ana-block.yaml"
    block.write_text(block.read_text("utf-8").replace("id: w1s1i4", "id: w1s1i14"), "utf-8")
    codes = {one.code: one.message for one in FileChecker().check(path)}
    assert "1 of 2 entries still fits, not w1s1" in codes["changed-block"]
    assert "unknown-item" in codes


def test_an_empty_log_is_a_log(tmp_path: Path) -> None:
    text = log_text()
    assert findings(tmp_path, text[: text.index("sessions:")]) == []
    assert load_log(tmp_path / "ana-block-log.yaml").require().sessions == ()


def test_only_what_has_no_load_of_its_own_is_told_as_such() -> None:
    """A sprint may pull a sled; one of which nothing is known is left alone."""
    planned = kept_block("in-season").weeks[0]
    items = {item.movement: item for session in planned.sessions for item in session.items}
    library = shipped_library().movements
    sprint, jump, lift = (items[name] for name in ("crouch-start-10", "tall-pogo", "back-squat"))
    assert without_load(sprint, library) == "a sprint without a load"
    assert without_load(sprint, None) == without_load(
        sprint.model_copy(update={"movement": "band-resisted-start"}), library
    )
    assert without_load(sprint, None) == ""
    assert without_load(jump, library) == without_load(jump, None) == "a jump without a load"
    assert without_load(lift, library) == without_load(items["one-leg-calf-hold"], library) == ""
