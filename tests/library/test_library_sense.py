"""What a library can say and no movement can mean: told at its place, and at the other where there are two."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from planner.domain.findings import Finding
from planner.files.edit_fields import read_assignments
from planner.files.edit_library import change_movement
from planner.files.file_checker import known_templates
from planner.files.load import load_library
from planner.files.locate import Located
from planner.files.sense.reach import reach_findings

ROOT = Path(__file__).resolve().parents[2]
SHIPPED = Located(ROOT / "exercise_library", "library", "as asked for")

# what is wrong, the movement, what is changed, the finding, and the field it points at
CASES: list[tuple[str, str, Sequence[str], str, str]] = [
    ("a jump without one", "pogo", ["jump="], "jump-without-jump", "kind"),
    ("a lift that leaps", "back-squat", ["patterns=squat,vertical-jump"], "contacts-uncounted", "patterns"),
    ("a lift among the jumps", "back-squat", ["part=jump"], "contacts-uncounted", "part"),
    (
        "a jump of a lift",
        "back-squat",
        ["jump=direction: vertical, approach: standing, tier: low"],
        "jump-of-no-jump",
        "jump",
    ),
    ("a circle", "back-squat", ["harder=goblet-squat"], "neighbour-loop", "harder"),
    ("easier and harder the same", "two-dumbbell-squat", ["easier=back-squat"], "neighbours-disagree", "easier"),
    ("the way up leads down", "two-dumbbell-squat", ["easier=pause-back-squat"], "neighbours-disagree", "easier"),
    ("percent of nothing", "back-squat", ["dose.of="], "percent-of-nothing", "dose"),
    ("percent of a hold", "front-squat", ["dose.of=side-plank"], "reference-without-maximum", "dose"),
    ("percent of body weight", "front-squat", ["dose.of=tempo-squat"], "reference-without-maximum", "dose"),
    ("asks for itself", "back-squat", ["requires=back-squat >= 1.0 body mass"], "condition-nobody-meets", "requires"),
    (
        "asks in a ring",
        "back-squat",
        ["requires=half-squat-off-pins >= 1 body mass"],
        "condition-nobody-meets",
        "requires",
    ),
    ("asks for a jump", "back-squat", ["requires=pogo >= 1 body mass"], "condition-nobody-meets", "requires"),
    (
        "asks for a harder lift",
        "goblet-squat",
        ["requires=back-squat >= 1 body mass"],
        "condition-above-level",
        "requires",
    ),
    ("a lone tag", "back-squat", ["stress.hamstring=3"], "tag-apart", "stress"),
    ("a tag forgotten", "acceleration-20", ["stress.hamstring="], "tag-apart", "stress"),
    ("no wave", "back-squat", ["dose.scheme=mian-lift"], "unknown-scheme", "dose"),
    ("no session", "back-squat", ["patterns=trunk"], "out-of-reach", "part"),
    ("easier is harder", "shallow-squat", ["level=advanced"], "neighbour-level", "harder"),
]


def new_findings(movement: str, words: Sequence[str]) -> tuple[list[Finding], list[str]]:
    change = change_movement(SHIPPED, movement, read_assignments(words))
    return list(change.new_findings), change.after.decode("utf-8").split("\n")


@pytest.mark.parametrize(
    ("movement", "words", "code", "field"), [case[1:] for case in CASES], ids=[c[0] for c in CASES]
)
def test_told_on_the_line_of_the_field(movement: str, words: Sequence[str], code: str, field: str) -> None:
    found, lines = new_findings(movement, words)
    told = [finding for finding in found if finding.code == code]
    assert told, found
    # The finding of a circle is at its first id.
    places = [lines[finding.line - 2 : finding.line] for finding in told]  # a list's entry is under its field
    assert any(line.strip().startswith(f"{field}:") for place in places for line in place)
    assert all(finding.message and finding.hint for finding in told)


def test_both_places_of_a_contradiction_are_told() -> None:
    found = new_findings("two-dumbbell-squat", ["easier=pause-back-squat"])[0]
    (finding,) = [f for f in found if f.code == "neighbours-disagree" and "'two-dumbbell-squat', but" in f.message]
    assert "two-dumbbell-squat -> back-squat -> pause-back-squat" in finding.message
    path, _, line = finding.other.rpartition(":")
    assert path == "library/squats.yaml"
    lines = (SHIPPED.path / "squats.yaml").read_text("utf-8").splitlines()
    assert lines[int(line) - 1].strip() == "harder: pause-back-squat"


def test_a_reason_in_the_source_silences_a_lone_tag() -> None:
    words = [
        "stress.hamstring=3",
        "source=hamstring 3 since the bar is held low; other tags common practice, no source",
    ]
    assert [finding.code for finding in new_findings("back-squat", words)[0]] == []


def test_how_far_apart_a_tag_may_stand_is_the_reviews() -> None:
    """A hamstring tag of 3 among 0s is told at two steps and at three; one of 2 only where the review says two."""
    strict = (SHIPPED.path / "review.yaml").read_bytes()
    lenient = strict.replace(b"steps_apart: 2", b"steps_apart: 3", 1)
    assert lenient != strict
    squats = (SHIPPED.path / "squats.yaml").read_bytes()
    tagged = squats.replace(
        b"    stress: {patellar-knee: 2, hip-groin: 1, low-back: 2}\n", b"    stress: {hamstring: 2}\n", 1
    )
    assert tagged != squats

    def told(review: bytes) -> list[str]:
        found = load_library(SHIPPED.path, instead={"squats.yaml": tagged, "review.yaml": review}).findings
        return [finding.code for finding in found if "hamstring" in finding.message]

    assert told(strict) == ["tag-apart"] and told(lenient) == []


def test_the_shipped_library_is_reached_whole_and_has_no_note() -> None:
    loaded = load_library(SHIPPED.path, SHIPPED.display)
    assert [*loaded.findings, *reach_findings(loaded, known_templates(SHIPPED.path))] == []
