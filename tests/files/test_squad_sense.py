"""What only the whole of a squad's file shows: each told once, on its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.files.load import load_squad

SQUAD = """\
file: squad/1
name: Hall team
athletes: [athletes]
target: {gain: 7 cm, method: touch}
groups:
  - {name: early, athletes: [ana, ben]}
  - name: late
    athletes: [cleo, dana]
wishes:
  - {group: early, time: "17:00"}
  - {athlete: cleo, time: "18:00"}
halls:
  - name: Gym
    open: [{days: [mon], from: "16:00", to: "20:00"}]
    stations: [{name: rack, number: 2, share: 3, equipment: [rack]}, {name: floor, number: 1, share: 6, parts: [calf]}]
coaches:
  - {name: Coach A, there: [{days: [mon], from: "16:00", to: "20:00"}]}
"""
YARD = (
    ', open: [{days: [mon], from: "16:00", to: "17:00"}], stations: [{name: lane, number: 1, share: 2, parts: [calf]}]}'
)


def told(folder: Path, text: str) -> list[tuple[str, int]]:
    path = folder / "squad.yaml"
    path.write_text(text, "utf-8")
    return [(finding.code, finding.line) for finding in load_squad(path).findings]


def test_a_squad_with_two_groups_is_fine(tmp_path: Path) -> None:
    assert told(tmp_path, SQUAD) == []


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("[cleo, dana]", "[cleo, ben]", "two-groups", 8),
        ("gain: 7 cm", "gain: 7 cm, rise: 60 cm", "target-not-one", 4),
        ("gain: 7 cm, ", "", "target-not-one", 4),
        ("group: early, time", "time", "wish-of-whom", 10),
        ("{athlete: cleo, time", "{athlete: cleo, group: late, time", "wish-of-whom", 11),
        ("group: early, time", "group: earlier, time", "unknown-group", 10),
        (
            '{days: [mon], from: "16:00", to: "20:00"}]\n    st',
            '{days: [mon], from: "16:00", to: "16:00"}]\n    st',
            "ends-before-it-begins",
            14,
        ),
        ("name: floor", "name: rack", "name-twice", 15),
        (", parts: [calf]", "", "takes-nothing", 15),
        ("Coach A, there", "Coach A, hall: Yard, there", "unknown-hall", 17),
        ("halls:\n", f"halls:\n  - {{name: Yard{YARD}\n", "hall-missing", 18),
        ("{gain: 7 cm, method: touch}", "{touch: 3 m, method: flight-time}", "target-method", 4),
    ],
)
def test_what_cannot_be_is_told_on_its_line(tmp_path: Path, old: str, new: str, code: str, line: int) -> None:
    assert SQUAD.count(old) == 1
    assert told(tmp_path, SQUAD.replace(old, new)) == [(code, line)]
