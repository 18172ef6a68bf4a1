"""A name or a cue that the card font cannot draw is a finding of ``check``, on its line."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from planner.cards.card_text import undrawable
from planner.cli import main
from planner.domain.block import HISTORY
from planner.files.dump import block_to_yaml
from planner.jobs.check_files import FileChecker
from planner.jobs.printable_texts import SURE
from tests.cli.conftest import CHECKOUT

from .invented_block import block, item, with_session


@pytest.mark.parametrize("name", ["محمد علي", "山田 太郎", "김민지"])
def test_a_name_in_another_script_is_told_on_its_line(name, tmp_path: Path):
    text = (CHECKOUT / "templates/athletes/in-season-player.yaml").read_text("utf-8")
    path = tmp_path / "ana.yaml"
    path.write_text(text.replace("name: Petra Solano", f"name: {name}", 1), "utf-8")
    (found,) = [finding for finding in FileChecker().check(path) if finding.code == "no-letter"]
    assert (found.line, found.level) == (5, "warning") and f"'{name[0]}'" in found.message
    assert found.message.startswith("the card font has no letter or sign for ")
    assert found.hint == "write it in Latin, Greek or Cyrillic letters, as cards print no others"


def test_a_cue_of_the_library_is_told_on_its_line(tmp_path: Path):
    folder = Path(shutil.copytree(CHECKOUT / "exercise_library", tmp_path / "exercise_library"))
    pogos = folder / "pogos.yaml"
    text = pogos.read_text("utf-8")
    pogos.write_text(text.replace("Short contacts, tall hips", "短い接地", 1), "utf-8")
    line = text.split("\n").index(next(one for one in text.split("\n") if "Short contacts, tall hips" in one)) + 1
    found = [(one.line, one.code) for one in FileChecker().check(folder) if one.code == "no-letter"]
    assert found == [(line, "no-letter")]


def test_what_a_block_takes_over_from_the_athlete_is_told_there(tmp_path: Path):
    text = (CHECKOUT / "templates/athletes/in-season-player.yaml").read_text("utf-8")
    path = tmp_path / "ana.yaml"
    told = "allow: [{rule: landing-work, reason: 監督が許可, date: 2025-09-01}]\n"
    told += "joints: [{joint: hip-groin, history: 古い傷}]\n"
    path.write_text(re.sub(r"^(allow|joints):.*\n(?:[ #].*\n)*", "", text, flags=re.MULTILINE) + told, "utf-8")
    found = [finding.line for finding in FileChecker().check(path) if finding.code == "no-letter"]
    lines = path.read_text("utf-8").split("\n")
    assert [lines[line - 1].partition(":")[0] for line in found] == ["allow"], (
        "a history is printed only when asked for"
    )


def test_a_history_in_other_letters_is_in_the_way_only_where_it_is_printed(tmp_path: Path, capsys):
    spoilt = block(cautions=("Land softly.", f"{HISTORY}the left knee: 古い傷.", "Warm up well."))
    path, cards = tmp_path / "block.yaml", tmp_path / "cards.pdf"
    path.write_text(block_to_yaml(spoilt), "utf-8")
    assert [one for one in FileChecker().check(path) if one.code == "no-letter"] == []
    assert main(["cards", str(path), "-o", str(cards)]) == 0
    assert main(["cards", str(path), "--history", "--sheet", "cards", "-o", str(cards)]) == 0  # no card has it
    assert "no-letter" not in capsys.readouterr().err
    assert main(["cards", str(path), "--history", "-o", str(cards)]) == 1
    told = capsys.readouterr().err
    line = next(at for at, text in enumerate(path.read_text("utf-8").split("\n"), 1) if "古い傷" in text)
    assert f"block.yaml:{line}:" in told and "[no-letter]" in told


def test_a_block_and_a_card_layout_are_told_on_their_lines(tmp_path: Path):
    block, layout = tmp_path / "block.yaml", tmp_path / "standard.yaml"
    twice = (item("one-leg", "Step-up", 3, 8, cues=("Keep 直",)), item("one-leg", "Step-up", 3, 8, cues=("Keep 直",)))
    block.write_text(block_to_yaml(with_session(list(twice))), "utf-8")
    shipped = CHECKOUT / "templates/cards/standard.yaml"
    layout.write_text(shipped.read_text("utf-8").replace("notes: Notes", "notes: 書"), "utf-8")
    for path, sign in ((block, "直"), (layout, "書")):
        (found,) = [finding for finding in FileChecker().check(path) if finding.code == "no-letter"]
        assert sign in path.read_text("utf-8").split("\n")[found.line - 1] and found.level == "warning"


def test_greek_cyrillic_and_accents_are_fine():
    assert [undrawable(name) for name in ("Łukasz Żak", "Ωμέγα", "Юлия", "Müller")] == [[], [], [], []]


def test_what_is_not_looked_up_is_drawable():
    assert undrawable("".join(sorted(SURE))) == []
