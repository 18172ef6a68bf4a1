"""A name or a cue that the card font cannot draw is a finding of ``check``, on its line."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from planner.cards.card_text import undrawable
from planner.jobs.check_files import FileChecker
from planner.jobs.printable_texts import SURE
from tests.cli.conftest import CHECKOUT


@pytest.mark.parametrize("name", ["محمد علي", "山田 太郎", "김민지"])
def test_a_name_in_another_script_is_told_on_its_line(name, tmp_path: Path):
    text = (CHECKOUT / "templates/athletes/in-season-player.yaml").read_text("utf-8")
    path = tmp_path / "ana.yaml"
    path.write_text(text.replace("name: Petra Solano", f"name: {name}", 1), "utf-8")
    (found,) = [finding for finding in FileChecker().check(path) if finding.code == "no-glyph"]
    assert (found.line, found.level) == (5, "warning") and f"'{name[0]}'" in found.message
    assert found.hint == "write it in Latin, Greek or Cyrillic letters"


def test_a_cue_of_the_library_is_told_on_its_line(tmp_path: Path):
    folder = Path(shutil.copytree(CHECKOUT / "exercise_library", tmp_path / "exercise_library"))
    pogos = folder / "pogos.yaml"
    text = pogos.read_text("utf-8")
    pogos.write_text(text.replace("Short contacts, tall hips", "短い接地", 1), "utf-8")
    line = text.split("\n").index(next(one for one in text.split("\n") if "Short contacts, tall hips" in one)) + 1
    found = [(one.line, one.code) for one in FileChecker().check(folder) if one.code == "no-glyph"]
    assert found == [(line, "no-glyph")]


def test_greek_cyrillic_and_accents_are_fine():
    assert [undrawable(name) for name in ("Łukasz Żak", "Ωμέγα", "Юлия", "Müller")] == [[], [], [], []]


def test_what_is_not_looked_up_is_drawable():
    letters = [chr(code) for code in range(SURE) if chr(code).isprintable()]
    assert undrawable("".join(letters)) == []
