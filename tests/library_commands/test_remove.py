"""``jumpblock library remove``: what hangs on a movement is told first, and every other byte stays."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import planner.domain
from planner.files.mentions import NAMING

ANA = """file: athlete/1
name: Ana
bans: [pogo-on-grass]
pins:
  - {movement: pogo-on-grass}
"""


@pytest.fixture
def pogos(coach: Path, run) -> Path:
    """The file of a family with a movement that nothing hangs on."""
    like = ("--like", "pogo", "name=Pogo on grass", "easier=", "harder=")
    assert run("library", "add", "pogo-on-grass", *like).code == 0
    return coach / "exercise_library/pogos.yaml"


def test_its_lines_go_and_the_others_stay(run, started, pogos):
    outcome = run("library", "remove", "Pogo on grass")
    assert outcome.code == 0, outcome.err
    assert "'pogo-on-grass' is taken out" in outcome.err
    assert pogos.read_bytes() == (started / "exercise_library/pogos.yaml").read_bytes()  # as before it was added


def test_nothing_is_written_while_an_athlete_names_it(run, coach, pogos):
    (coach / "ana.yaml").write_text(ANA, "utf-8")
    before = pogos.read_bytes()
    outcome = run("library", "remove", "pogo-on-grass")
    assert outcome.code == 1 and pogos.read_bytes() == before
    assert "ana.yaml:3:8: [still-named] 'pogo-on-grass' is named here" in outcome.err and "ana.yaml:5:" in outcome.err
    assert "note: [one-athlete] to keep it from one athlete only, write bans: [pogo-on-grass]" in outcome.err
    asked = run("library", "remove", "pogo-on-grass", "--anyway")
    assert asked.code == 0 and "ana.yaml:3:8: warning" in asked.err
    assert b"pogo-on-grass" not in pogos.read_bytes()


def test_a_neighbour_in_the_library_keeps_it_whatever_is_asked(run, coach):
    squats = (coach / "exercise_library/squats.yaml").read_bytes()
    outcome = run("library", "remove", "back-squat", "--anyway")
    assert outcome.code == 1 and "drop-jumps.yaml" in outcome.err
    assert (coach / "exercise_library/squats.yaml").read_bytes() == squats


def test_the_only_one_of_a_file_is_refused_with_what_to_do(run, coach):
    assert run("library", "add", "grass-hop", "--like", "pogo", "--family", "grass", "easier=", "harder=").code == 0
    outcome = run("library", "remove", "grass-hop")
    assert outcome.code == 1 and "grass.yaml:" in outcome.err and "delete the file" in outcome.err


def test_every_field_that_holds_a_movement_is_looked_at():
    typed = re.compile(r"^    (\w+): .*\bMovement(?:Id|Word)\b", re.MULTILINE)
    domain = Path(planner.domain.__path__[0])
    fields = {name for path in domain.glob("*.py") for name in typed.findall(path.read_text("utf-8"))}
    of_other_things = {"id", "family", "has", "phase", "shapes", "test_week", "rules"}
    assert fields - of_other_things == set(NAMING) - {"requires"}  # which is a sentence that begins with an id
