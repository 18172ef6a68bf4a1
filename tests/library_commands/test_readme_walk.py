"""What README says of adding a movement comes true to the letter."""

from __future__ import annotations

import re
from pathlib import Path

from planner.files.load import load_library
from tests.cli.conftest import CHECKOUT

README = (CHECKOUT / "README.md").read_text("utf-8")
SECTION = README.partition("## Add a movement")[2].partition("\n## ")[0]


def snippet(language: str, holding: str) -> str:
    """The one piece of that language in the section that holds these words."""
    (found,) = (
        text for text in re.findall(rf"```{language}\n(.*?)```", SECTION, re.DOTALL) if holding in text
    )  # fmt: skip
    return str(found)


def paste(coach: Path, entry: str) -> None:
    path = coach / "exercise_library/pogos.yaml"
    path.write_text(f"{path.read_text('utf-8')}\n{entry}", "utf-8")


def test_the_movement_of_readme_is_fine_at_the_end_of_its_family(run, coach: Path) -> None:
    paste(coach, snippet("yaml", "id: pogo-on-sand"))
    assert run("check", "exercise_library").code == 0
    assert "pogo-on-sand" in load_library(coach / "exercise_library").require()


def test_the_slip_that_readme_shows_is_told_where_and_as_it_says(run, coach: Path) -> None:
    shown = snippet("console", "jumpblock check").split("\n")[1].removesuffix(" ...")
    entry = snippet("yaml", "id: pogo-on-sand")
    paste(coach, entry.replace("calf-ankle: 1", "calf-ancle: 1", 1))
    outcome = run("check", "exercise_library")
    assert outcome.code == 1 and outcome.out.startswith(shown)
