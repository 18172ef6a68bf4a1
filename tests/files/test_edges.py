"""Both sides of an edge: sizes, hidden characters, near words, long lines under a caret, what a scalar means."""

from __future__ import annotations

from typing import Any

import pytest

from planner.domain.findings import Finding
from planner.files.render import finding_to_github, format_finding
from planner.files.suggest import did_you_mean, nearest
from planner.files.text import MOST_FINDINGS, LARGEST_FILE_bytes, read_text
from planner.files.values import ValueProblem, is_text, resolve


def places(raw: bytes) -> list[tuple[int, int, str]]:
    text, findings = read_text(raw, "a.yaml")
    assert (text is None) == bool(findings)
    return [(one.line, one.column, one.code) for one in findings]


@pytest.mark.parametrize(
    ("raw", "found"),
    [
        (b"a" * LARGEST_FILE_bytes, []),
        (b"a" * (LARGEST_FILE_bytes + 1), [(0, 0, "too-large")]),
        (b"", [(1, 1, "empty-file")]),
        (b"  # only a remark\n\n", [(1, 1, "empty-file")]),
        (b"# a remark\nb: 1", []),
        (b"\xef\xbb\xbfb: 1", []),
        (b"b: 1\nc: \xff", [(2, 4, "not-utf8")]),
        ("b: 1\r\nc: x\u200by\u200b".encode(), [(2, 5, "control-character")]),
        (b"b:\n  \tc: 1", [(2, 3, "tab")]),
        ("b:\n\u00a0c: 1".encode(), [(2, 1, "tab")]),
        (b"b:\tc", []),
        (b"b: 1\n \t \n", []),
    ],
)
def test_what_keeps_a_text_from_being_read_is_found_where_it_is(raw: bytes, found: list[tuple[int, int, str]]) -> None:
    assert places(raw) == found


def test_no_more_findings_of_one_sort_than_anybody_reads() -> None:
    assert len(places(b"\tb: 1\n" * (MOST_FINDINGS + 5))) == MOST_FINDINGS
    said = [read_text(raw, "a.yaml")[1][0].message for raw in (b"\tb", "\u2003b".encode(), b"\xff\xfeb", b"b\xff")]
    assert ["tab" in said[0], "tab" in said[1], "UTF-16" in said[2], "UTF-16" in said[3]] == [True, False, True, False]
    assert "1.5 MiB" in read_text(b"a" * (3 * LARGEST_FILE_bytes // 2), "a.yaml")[1][0].message


@pytest.mark.parametrize(
    ("word", "allowed", "found"),
    [
        ("Calf_Ankle", ["calf-ankle", "knee"], "calf-ankle"),
        ("calf ancle", ["calf-ankle", "knee"], "calf-ankle"),
        ("calf", ["calf-and-ankle-strength", "knee"], "calf-and-ankle-strength"),
        ("hip", ["hip-dominant-one-leg", "one-leg-hip-and-more"], None),
        ("ca", ["calf-and-ankle-strength"], None),
        ("zzz", ["calf", "knee"], None),
    ],
)
def test_the_nearest_word(word: str, allowed: list[str], found: str | None) -> None:
    assert nearest(word, allowed) == found
    if found:
        assert found in did_you_mean(word, allowed)


def test_a_short_list_is_told_whole_and_a_long_one_not_at_all() -> None:
    assert did_you_mean("zzz", ["b", "a", "b"]) == "use one of: b, a"
    assert did_you_mean("zzz", "abcdefghijkl") == f"use one of: {', '.join('abcdefghijkl')}"
    assert did_you_mean("zzz", "abcdefghijklm") == did_you_mean("zzz", []) == ""


def _finding(line: str, column: int, **more: Any) -> Finding:
    return Finding("a.yaml", 3, column, "odd", "is wrong", "mend it", source_line=line, **more)


@pytest.mark.parametrize("column", [1, 80, 81, 82, 300, 399])
def test_a_caret_is_under_its_character_and_a_long_line_is_cut_around_it(column: int) -> None:
    line = "".join(chr(ord("a") + number % 26) for number in range(400))
    _, shown, caret = format_finding(_finding(line, column)).split("\n")
    assert shown[len(caret) - 1] == line[column - 1] and caret.strip() == "^"
    assert len(shown) <= 4 + 160
    assert len(shown) == 4 + 160 or column > 240
    whole = format_finding(_finding(line[:160], min(column, 160))).split("\n")[1]
    assert whole == f"    {line[:160]}"


def test_wide_and_hidden_characters_leave_the_caret_in_place() -> None:
    _, shown, caret = format_finding(_finding("\u6f22\x07b", 3)).split("\n")
    assert (shown, caret) == ("    \u6f22 b", "       ^")
    assert "\n" not in format_finding(_finding("   ", 1))
    assert format_finding(Finding("", 0, 0, "odd", "is wrong", "")) == "[odd] is wrong"
    assert format_finding(Finding("a.yaml", 0, 7, "odd", "is wrong", "x", level="note")).startswith(
        "a.yaml: note: [odd]"
    )
    coloured = format_finding(_finding("b", 1, level="warning"), color=True)
    assert "\x1b[33m[odd]" in coloured and "\x1b[1ma.yaml:3:1" in coloured


def test_a_workflow_command_has_its_place_and_escapes() -> None:
    assert finding_to_github(_finding("b", 2)) == "::error file=a.yaml,line=3,col=2,title=odd::is wrong; mend it"
    plain = Finding("a,b:c", 0, 0, "odd", "50 %\r\nmore", "", level="note")
    assert finding_to_github(plain) == "::notice file=a%2Cb%3Ac,title=odd::50 %25%0D%0Amore"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("999999999999999", 999999999999999),
        ("-999999999999999", -999999999999999),
        ("+1.50", 1.5),
        (".5", 0.5),
        ("1e3", 1000.0),
        ("2025-02-30", "2025-02-30"),
        ("-", "-"),
        ("1 kg", "1 kg"),
        ("1_kg", "1_kg"),
        ("-_", "-_"),
        ("\u0661", "\u0661"),
    ],
)
def test_what_a_scalar_means(text: str, value: object) -> None:
    assert resolve(text) == value and resolve(text, plain=False) == text


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("1000000000000000", "huge-number"),
        ("1e999", "huge-number"),
        (".inf", "not-finite"),
        ("0x1F", "odd-number"),
        ("012", "odd-number"),
        ("1_000", "odd-number"),
    ],
)
def test_what_no_scalar_may_be(text: str, code: str) -> None:
    with pytest.raises(ValueProblem) as refused:
        resolve(text)
    assert refused.value.code == code
    assert not is_text(text, True) and is_text(text, False) and is_text("word", True)


def test_a_long_number_is_told_short() -> None:
    for digits, told in ((24, "1" * 24), (25, "1" * 20 + "...")):
        with pytest.raises(ValueProblem) as refused:
            resolve("1" * digits)
        assert refused.value.message.startswith(f"{told} is")
