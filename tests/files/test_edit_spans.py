"""Where lines and values begin and end, at the first and last character of a text."""

from __future__ import annotations

import pytest

from planner.files.edit_spans import line_end_of, line_start, line_stop, next_line


@pytest.mark.parametrize(
    ("text", "at", "start", "stop", "after"),
    [
        ("ab\ncd\n", 0, 0, 2, 3),
        ("ab\ncd\n", 2, 0, 2, 3),
        ("ab\ncd\n", 3, 3, 5, 6),
        ("ab\r\ncd", 5, 4, 6, 6),
        ("ab\r\ncd", 1, 0, 2, 4),
        ("ab\rcd", 4, 3, 5, 5),
        ("", 0, 0, 0, 0),
    ],
)
def test_a_line_ends_at_any_of_three_line_endings(text: str, at: int, start: int, stop: int, after: int) -> None:
    assert (line_start(text, at), line_stop(text, at), next_line(text, at)) == (start, stop, after)


@pytest.mark.parametrize(("text", "ending"), [("a\r\nb\n", "\r\n"), ("a\rb", "\r"), ("a\n", "\n"), ("a", "\n")])
def test_a_file_s_line_ending_is_its_first(text: str, ending: str) -> None:
    assert line_end_of(text) == ending
