"""gap, plan, cards and progress of many files and folders: each as alone, and a refusal costs only its own file."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

GAP = """file: athlete/1
name: {name}
birth_date: 1998-03-02
body_mass: 80 kg
stature: 1.85 m
standing_reach: 2.40 m
take_off: one-leg left
approach: {{steps: 5}}
level: intermediate
landing: holds
training: {{days: [{{day: mon, minutes: 75}}, {{day: thu, minutes: 75}}]}}
equipment: {{items: [rack, barbell], bar: 20 kg, plates: [20 kg, 10 kg, 5 kg]}}
target: {{touch: 3.05 m, method: touch}}
tests:
  - {{kind: touch, date: 2025-09-01, method: wall, take_off: one-leg left, run_up: true, trials: [2.98 m, 3.0 m]}}
"""


@pytest.fixture
def squad(tmp_path: Path) -> Path:
    folder = tmp_path / "athletes"
    folder.mkdir()
    for name in ("ana", "bo"):
        (folder / f"{name}.yaml").write_text(GAP.format(name=name.title()), "utf-8")
    (folder / "notes.yaml").write_text("file: squad/1\n", "utf-8")
    return folder


def test_gaps_of_a_folder_are_those_of_its_files(squad: Path, run: Any) -> None:
    alone = [run("gap", squad / f"{name}.yaml") for name in ("ana", "bo")]
    assert run("gap", squad).out == "\n".join(one.out for one in alone)
    assert run("gap", squad / "ana.yaml", squad / "bo.yaml", squad).out == run("gap", squad).out
    found = run("gap", squad, "--json").json["files"]
    assert [Path(one["file"]).stem for one in found] == ["ana", "bo"]
    assert found[1]["result"] == run("gap", squad / "bo.yaml", "--json").json


def test_a_refusal_costs_only_its_own_file(squad: Path, run: Any) -> None:
    other = run("gap", squad / "bo.yaml").out
    (squad / "ana.yaml").write_text(GAP.format(name="Ana").replace("80 kg", "8 kg"), "utf-8")
    told = run("gap", squad)
    assert told.code == 1 and told.out == other and "ana.yaml:4" in told.err
    refused, fine = run("gap", squad, "--json").json["files"]
    assert refused["findings"] and "result" in fine


def test_a_folder_without_any_is_refused(squad: Path, run: Any) -> None:
    told = run("cards", squad, "-o", squad / "cards")
    assert told.code == 1 and "[nothing-in-folder] no file in this folder is a block" in told.err
    assert not (squad / "cards").exists()


def test_cards_of_several_blocks_go_into_a_folder(coach: Path, run: Any) -> None:
    blocks = [coach / "block.yaml", coach / "two.yaml"]
    shutil.copyfile(*blocks)
    only = ("--week", 1, "--session", 1, "--sheet", "cards")
    assert run("cards", *blocks, "-o", coach / "both.pdf", *only).code == 2
    assert run("cards", *blocks, "-o", coach / "cards", *only).code == 0
    assert run("cards", blocks[0], "-o", coach / "alone.pdf", *only).code == 0
    made = sorted((coach / "cards").iterdir())
    assert [one.name for one in made] == ["block.pdf", "two.pdf"]
    assert made[0].read_bytes() == (coach / "alone.pdf").read_bytes()
    (coach / "sub").mkdir()
    shutil.copyfile(blocks[0], coach / "sub/block.yaml")
    twice = run("cards", blocks[0], coach / "sub", "-o", coach / "cards", *only)
    assert twice.code == 1 and "[name-twice]" in twice.err


def test_progress_of_several_is_told_one_after_the_other(planned: Path, run: Any) -> None:
    told = run("progress", planned / "block.yaml", planned / "block.yaml", planned / "other.yaml")
    assert told.code == 1 and told.err.count("block.yaml") >= 1 and "other.yaml" in told.err
    assert run("progress", planned / "block.yaml", planned / "other.yaml", "--log", "x").code == 2


def test_several_athletes_are_planned_into_a_folder_with_a_table(squad: Path, run: Any, tmp_path: Path) -> None:
    assert run("plan", squad).code == 2
    assert run("plan", squad, "-o", tmp_path / "block.yaml").code == 2
    for name in ("ana", "bo"):
        (squad / f"{name}.yaml").write_text(GAP.format(name=name).replace("80 kg", "8 kg"), "utf-8")
    told = run("plan", squad, "-o", tmp_path / "blocks")
    assert told.code == 1 and "2 athletes: 2 refused." in told.out
    assert list((tmp_path / "blocks").glob("*.yaml")) == []
