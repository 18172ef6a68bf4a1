"""Names as the trade says them: in an athlete's bans, pins and tests they are told with the movement's id."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.solve.demos import ROOT

ADULT = ROOT / "templates" / "athletes" / "adult-one-leg-jumper.yaml"
LINES = {
    "a ban": "bans: [{name}]",
    "a pin": "pins: [{{movement: {name}}}]",
    "an allowance": "allow: [{{movement: {name}, reason: seen, date: 2025-09-05}}]",
}


def _checked(run, folder: Path, line: str) -> str:
    path = folder / "milo.yaml"
    first = ADULT.read_text("utf-8").splitlines()
    kept = [text for text in first if not text.startswith(("bans:", "pins:", "allow:"))]
    path.write_text("\n".join([*kept, line]) + "\n", "utf-8")
    told = run("check", path)
    assert told.code == 1 and f"{path}:{len(kept) + 1}:" in told.err + told.out
    return " ".join((told.err + told.out).split())


@pytest.mark.parametrize("line", LINES.values(), ids=LINES)
@pytest.mark.parametrize(
    ("name", "ids"),
    [
        ("deadlift", ["straight-bar-hinge"]),
        ("Romanian deadlift", ["straight-leg-bar-hinge"]),
        ("RDL", ["straight-leg-bar-hinge", "dumbbell-hinge"]),
        ("A-skip", ["easy-skips"]),
    ],
)
def test_a_trade_name_is_told_with_the_id_to_write(run, tmp_path: Path, line: str, name: str, ids: list[str]) -> None:
    said = _checked(run, tmp_path, line.format(name=name))
    assert f"'{name}' is not a known movement; write " in said
    assert all(one in said for one in ids), said


def test_knees_are_told_to_keep_in_line_with_the_feet() -> None:
    for path in ("exercise_library/landing-drills.yaml", "templates/cards/standard.yaml", f"{ADULT.relative_to(ROOT)}"):
        assert "knees in line with the feet" in (ROOT / path).read_text("utf-8"), path
