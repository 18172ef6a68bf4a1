"""A note survives what messengers, keyboards and mail programs do to text, and not a changed figure."""

from __future__ import annotations

import datetime
from collections.abc import Callable

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from planner.files.training_note import TrainingNote, check_of, read_notes

BODY = (
    "9eb607a2 w3s2 2026-03-17 as-planned / effort 7 / minutes 62 / 6: 110 kg x 6, 6, 5; 2 left / 2: 3.10 m, 3.12 m / "
    "pain left patellar-knee 1 3 / morning right achilles-ankle 2 / note didn't sleep / 5 h"
)
NOTE = f"jb1 {BODY} end {check_of(BODY)}"
READ = TrainingNote(
    line=1,
    plan="9eb607a2",
    session="w3s2",
    date=datetime.date(2026, 3, 17),
    missed=None,
    effort=7,
    minutes=62,
    items=(("6", "110 kg x 6, 6, 5; 2 left"), ("2", "3.10 m, 3.12 m")),
    pain=("left patellar-knee 1 3",),
    morning=("right achilles-ankle 2",),
    note="didn't sleep / 5 h",
)

MANGLED: dict[str, Callable[[str], str]] = {
    "as it was": lambda text: text,
    "capitals": str.upper,
    "quoted": lambda text: "> " + text.replace(" / minutes", "\n> / minutes"),
    "quoted twice": lambda text: ">> " + text,
    "broken over lines": lambda text: text.replace(" / ", "\n/ "),
    "curly quotes": lambda text: text.replace("'", "\u2019"),
    "long dashes": lambda text: text.replace("-", "\u2013"),
    "multiplication signs": lambda text: text.replace(" x ", " \u00d7 "),
    "no-break spaces": lambda text: text.replace(" ", "\u00a0"),
    "bold and monospaced": lambda text: f"*`{text}`*".replace("effort", "_effort_"),
    "zero-width characters": lambda text: "\u200b".join(text.split(" ", 3)[:1]) + "\u200e " + text.split(" ", 1)[1],
    "full-width digits": lambda text: text.translate({ord(str(d)): chr(0xFF10 + d) for d in range(10)}),
    "a word corrected": lambda text: text.replace("sleep", "slept well"),
    "in a chat": lambda text: f"[17.03.26, 18:22] Ana: {text}\n[17.03.26, 18:25] coach: thanks, 10 of 10",
}  # fmt: skip


@pytest.mark.parametrize("how", MANGLED)
def test_a_note_survives(how: str) -> None:
    notes, found = read_notes(MANGLED[how](NOTE), "chat.txt")
    assert found == []
    (note,) = notes
    expected = (
        READ if how != "a word corrected" else TrainingNote(**{**READ.__dict__, "note": "didn't slept well / 5 h"})
    )
    assert note == expected


def test_it_fits_a_message() -> None:
    assert len(NOTE) <= 300


@given(st.integers(0, len(BODY) - 1), st.integers(0, 9))
def test_a_changed_figure_is_refused(at: int, digit: int) -> None:
    if not BODY[at].isdigit() or BODY[at] == str(digit):
        return
    changed = f"{BODY[:at]}{digit}{BODY[at + 1 :]}"
    notes, found = read_notes(f"jb1 {changed} end {check_of(BODY)}", "chat.txt")
    assert notes == [] and [one.code for one in found] == ["note-changed"]


def test_misread_letters_of_the_check_are_meant_well() -> None:
    check = check_of(BODY)
    shown = check.replace("0", "O").replace("1", "l")
    assert read_notes(f"jb1 {BODY} end {shown}", "chat.txt")[1] == []


BROKEN = {
    "cut off": (NOTE[:120], "note-cut"),
    "no day": (f"jb1 {(b := '9eb607a2 w3s2 today as-planned')} end {check_of(b)}", "note-form"),
    "how it went": (f"jb1 {(b := '9eb607a2 w3s2 2026-03-17 as-planed')} end {check_of(b)}", "note-form"),
    "no reason": (f"jb1 {(b := '9eb607a2 w3s2 2026-03-17 missed')} end {check_of(b)}", "note-form"),
    "no field": (f"jb1 {(b := '9eb607a2 w3s2 2026-03-17 changed / efort 7')} end {check_of(b)}", "note-form"),
    "too short": (f"jb1 {(b := '9eb607a2 w3s2')} end {check_of(b)}", "note-form"),
}


@pytest.mark.parametrize("how", BROKEN)
def test_a_broken_note_is_told_on_its_line_and_the_next_is_read(how: str) -> None:
    text, code = BROKEN[how]
    notes, found = read_notes(f"hello\n{text}\n{NOTE}\n", "chat.txt")
    assert [(one.code, one.line, one.path) for one in found] == [(code, 2, "chat.txt")]
    assert [note.line for note in notes] == [3]


@given(st.text(max_size=200))
@example("\ua620")  # a digit of another script
def test_any_text_is_read_without_a_traceback(text: str) -> None:
    read_notes(text, "chat.txt")
    read_notes(f"jb1 {text} end {check_of(text)}", "chat.txt")
