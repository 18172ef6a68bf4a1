"""A finding as it is printed, to the letter."""

from __future__ import annotations

import json

from files.snippets import changed, findings_of
from planner.domain.findings import Finding
from planner.files.render import finding_to_json, format_finding, in_order


def test_printed_form() -> None:
    (finding,) = findings_of(changed("    - {day: mon, minutes: 60}", "    - {day: mon, minutes: 6}")[0])
    assert format_finding(finding) == (
        "nora.yaml:14:27: [out-of-range] minutes: '6' is less than 15, the least allowed here; check the number\n"
        "        - {day: mon, minutes: 6}\n"
        "                              ^"
    )


def test_caret_stands_under_the_place_after_wide_letters() -> None:
    finding = Finding("a.yaml", 1, 4, "code", "message", source_line="日本: x")
    _, line, caret = format_finding(finding).split("\n")
    assert line == "    日本: x"
    assert caret == "    " + "  " * 2 + " " + "^"


def test_a_very_long_line_is_shown_around_the_place() -> None:
    finding = Finding("a.yaml", 1, 5001, "code", "message", source_line="x" * 5000 + "Y" + "z" * 5000)
    _, line, caret = format_finding(finding).split("\n")
    assert len(line) < 200
    assert line[caret.index("^")] == "Y"


def test_no_line_no_hint_and_levels() -> None:
    assert format_finding(Finding("lib", 0, 0, "no-library", "nothing here")) == "lib: [no-library] nothing here"
    assert format_finding(Finding("", 0, 0, "x", "y", "z", "warning")) == "warning: [x] y; z"
    coloured = format_finding(Finding("a", 1, 2, "x", "y"), color=True)
    assert coloured.startswith("\x1b[1ma:1:2\x1b[0m: ") and "[x]" in coloured


def test_as_data() -> None:
    finding = Finding("a.yaml", 3, 4, "code", "message", "hint", "note", "line", "b.yaml:5")
    assert json.loads(json.dumps(finding_to_json(finding))) == {
        "path": "a.yaml", "line": 3, "column": 4, "level": "note", "code": "code", "message": "message", "hint": "hint",
        "other": "b.yaml:5",
    }  # fmt: skip


def test_in_order_and_each_once() -> None:
    first, second = Finding("a", 1, 1, "x", "y"), Finding("a", 10, 1, "x", "y")
    assert in_order([second, first, second]) == [first, second]
