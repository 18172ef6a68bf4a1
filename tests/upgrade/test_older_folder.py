"""A coach's folder of an earlier release still gives the gap and the block that it gave then.

``folder_2026_11.tar.gz`` is what ``jumpblock start`` wrote in November 2026, with the gap of each demo athlete under
``expected/`` and the in-season player's block. It is never made again from later code. It was made with::

    jumpblock start folder_2026_11 && cd folder_2026_11 && mkdir expected
    for a in adult-one-leg-jumper in-season-player youth-two-leg-jumper; do
        jumpblock gap templates/athletes/$a.yaml --json > expected/$a.gap.json; done
    jumpblock plan templates/athletes/in-season-player.yaml -o block.yaml && cd ..
    tar --sort=name --mtime=@0 --owner=0 --group=0 --numeric-owner --mode=u=rwX,go=rX -c folder_2026_11 | \
        gzip -n -9 > folder_2026_11.tar.gz

A change of a format must keep these tests as they are: a new field has a default that changes nothing, or is read
from the packaged file with a note. Only a change that is meant to alter an older folder's plan may alter them. One did:
since 29 November 2026 all trials of a test count, so the gaps of that day are kept in ``gaps_2026_11_29``.
"""

from __future__ import annotations

import json
import re
import tarfile
from pathlib import Path
from typing import Any

import pytest

from planner.domain.block import Block
from planner.files.digest import is_as_solved
from planner.files.load import load_block
from tests.cli.conftest import run  # noqa: F401  (the fixture)

ATHLETES = ("adult-one-leg-jumper", "in-season-player", "youth-two-leg-jumper")
SENTENCES = {"contact_time_from", "next_test", "story", "notes", "test", "says", "caution", "source"}  # may be reworded
GAPS = Path(__file__).parent / "gaps_2026_11_29"
ROUNDING = 1e-9  # relative: the order of a sum may change, nothing more


@pytest.fixture
def older(tmp_path: Path) -> Path:
    with tarfile.open(Path(__file__).parent / "folder_2026_11.tar.gz") as archive:
        archive.extractall(tmp_path, filter="data")
    return tmp_path / "folder_2026_11"


def assert_holds(now: Any, then: Any, at: str = "") -> None:
    """What was told then is told now; more may be told beside it."""
    if isinstance(then, dict):
        for key, value in then.items():
            if key in SENTENCES:
                continue
            assert key in now, f"{at}.{key} is no longer told"
            assert_holds(now[key], value, f"{at}.{key}")
    elif isinstance(then, list):
        assert len(now) == len(then), at
        for number, (one, other) in enumerate(zip(now, then, strict=True)):
            assert_holds(one, other, f"{at}[{number}]")
    elif isinstance(then, float):
        assert now == pytest.approx(then, rel=ROUNDING), at
    else:
        assert now == then, at


@pytest.mark.parametrize("name", ATHLETES)
def test_it_gives_the_same_gap(run, older: Path, name: str) -> None:  # noqa: F811
    outcome = run("gap", older / f"templates/athletes/{name}.yaml", "--json")
    assert outcome.code == 0, outcome.err
    then = json.loads((GAPS / f"{name}.gap.json").read_text("utf-8"))
    assert then["gap"]["mean_ground_force_N"] > 0
    assert_holds(outcome.json, then)


def test_it_gives_the_same_block(run, older: Path) -> None:  # noqa: F811
    outcome = run("plan", older / "templates/athletes/in-season-player.yaml", "-o", older / "again.yaml")
    assert outcome.code == 0, outcome.err
    before, after = load_block(older / "block.yaml").require(), load_block(older / "again.yaml").require()
    assert after.proof.status == before.proof.status == "optimal"
    assert after.shortfalls == before.shortfalls
    assert _work(after) == _work(before)


def _work(block: Block) -> list[dict[str, Any]]:
    """The weeks without the remarks on items and the sessions' reasons, which may be reworded."""
    weeks = [week.model_dump() for week in block.weeks]
    for session in (session for week in weeks for session in week["sessions"]):
        session["why"] = None
    for item in (item for week in weeks for session in week["sessions"] for item in session["items"]):
        item["note"] = None
    return weeks


def test_its_block_still_reads_as_it_was_solved(run, older: Path) -> None:  # noqa: F811
    assert is_as_solved(load_block(older / "block.yaml").require())
    assert run("cards", older / "block.yaml", "-o", older / "cards.pdf").code == 0


def test_nothing_in_it_is_refused(run, older: Path) -> None:  # noqa: F811
    outcome = run("check", older, "--json")
    assert [finding for finding in outcome.json["findings"] if finding["level"] == "error"] == []
    assert outcome.code == 0


@pytest.fixture
def without_a_kind(older: Path) -> Path:
    """The folder as if a kind of test that its athletes took had come later."""
    path = older / "templates/benchmarks/standard.yaml"
    text = path.read_text("utf-8")
    start = text.index("\n  lift:\n", text.index("\ntest_kinds:")) + 1
    end = next(found.start() + start + 1 for found in re.finditer(r"\n  [a-z]", text[start + 1 :])) + 1
    path.write_text(text[:start] + text[end:], "utf-8")
    return older


def test_a_test_kind_of_a_later_release_is_read_from_the_package_and_told(run, without_a_kind: Path) -> None:  # noqa: F811
    name = "in-season-player"
    outcome = run("gap", without_a_kind / f"templates/athletes/{name}.yaml", "--json")
    assert outcome.code == 0, outcome.err
    assert_holds(outcome.json, json.loads((GAPS / f"{name}.gap.json").read_text("utf-8")))
    found = run("check", without_a_kind / "templates/benchmarks/standard.yaml", "--json").json["findings"]
    assert [(one["code"], one["level"]) for one in found if one["code"] != "editor-line"] == [
        ("packaged-test-kind", "note"),
        ("packaged-platform", "note"),
    ]
    assert any("'lift'" in one["message"] for one in found)
