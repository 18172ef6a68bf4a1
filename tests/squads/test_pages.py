"""Start times from blocks, the wall sheet, the day's cards and the overview, as files and as text."""

from __future__ import annotations

import csv
import io
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader

from planner.cards.fonts import width_of
from planner.cards.wall_sheet import Stay, wall_table
from planner.cards.wide_table import WideTable, draw_tables
from planner.domain.findings import UserError
from planner.estimate.belief import verdict_on
from planner.estimate.uncertainty import Estimate
from planner.files.load import load_block
from planner.jobs.squad_changes import change_pages
from planner.jobs.squad_overview import _CHANGE_SHARES, _SHARES, CHANGE_HEADS, HEADS
from planner.starts.timed_session import timed_session
from tests.benchmarks.outcome import shipped
from tests.cli.conftest import athlete, change, planned, solved_once  # noqa: F401  (the fixtures)

SQUAD = """file: squad/1
name: Two players
athletes: [templates/athletes/in-season-player.yaml, templates/athletes/twin.yaml]
blocks: .
halls:
  - name: Gym
    open: [{days: [mon, tue, wed, thu, fri, sat, sun], from: "16:00", to: "19:00"}]
    stations:
      - {name: rack, number: 1, equipment: [rack]}
      - {name: runway, number: 1, share: 4, parts: [sprint, approach-jump]}
"""
ADULT = "templates/athletes/adult-one-leg-jumper.yaml"


@pytest.fixture(scope="module")
def two_players(planned: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:  # noqa: F811
    """A squad of the in-season player and a twin, with the one block for both. Not to be changed."""
    folder = Path(shutil.copytree(planned, tmp_path_factory.mktemp("two") / "coach"))
    (folder / "squad.yaml").write_text(SQUAD, "utf-8")
    text = athlete(folder).read_text("utf-8")
    name = load_block(folder / "block.yaml").require().for_athlete.name
    (folder / "templates/athletes/twin.yaml").write_text(text.replace(name, "Twin Ostrom"), "utf-8")
    block = (folder / "block.yaml").read_text("utf-8")
    (folder / "in-season-player.yaml").write_text(block, "utf-8")
    (folder / "twin.yaml").write_text(block.replace(name, "Twin Ostrom"), "utf-8")
    return folder


def test_the_one_rack_is_never_used_by_both(two_players: Path, run: Any) -> None:
    days = run("squad", "slots", two_players / "squad.yaml", "--json").json["days"]
    assert days and all(day["status"] == "optimal" and len(day["starts"]) == 2 for day in days)
    for day in days:
        one, two = ([item for item in start["items"] if item["station"] == "rack"] for start in day["starts"])
        assert all(a["to"] <= b["from"] or b["to"] <= a["from"] for a in one for b in two)


def test_a_session_lasts_as_long_as_its_card_says(two_players: Path) -> None:
    block = load_block(two_players / "block.yaml").require()
    for session in block.sessions:
        timed = timed_session("a", "A", session, {})
        for order in timed.orders:
            assert order[0].start == session.warm_up_minutes
            assert abs(order[-1].end - session.minutes) <= 0.1
            assert sorted(item.item for item in order) == sorted(item.item for item in timed.orders[0])


def test_the_wall_sheet_and_the_cards_name_time_and_station(two_players: Path, run: Any, tmp_path: Path) -> None:
    words = ("squad", "slots", two_players / "squad.yaml", "--days", 1, "-o", tmp_path / "wall.pdf")
    told = run(*words, "--cards", tmp_path / "cards.pdf")
    assert told.code == 0 and "Proved: no starts keep wishes and groups better." in told.out
    (wall,) = PdfReader(tmp_path / "wall.pdf").pages
    for word in ("Gym, ", "2 athletes", "Places × athletes at each: rack 1 × 1", "16:00", "runway", "Twin"):
        assert word in wall.extract_text()
    cards = PdfReader(tmp_path / "cards.pdf")
    assert "names all who are there in any part of its quarter" in wall.extract_text()  # so more names than places
    assert len(cards.outline) == 2
    assert "16:00 Gym" in cards.pages[0].extract_text()


def test_what_is_over_ends_with_1(two_players: Path, run: Any) -> None:
    short = two_players / "short.yaml"
    short.write_text(SQUAD.replace('to: "19:00"', 'to: "16:30"'), "utf-8")
    told = run("squad", "slots", short, "--days", 1)
    assert told.code == 1 and "and no hall is open longer than 30" in told.out


def test_who_is_left_out_gets_a_change_that_finds_room(two_players: Path, run: Any, tmp_path: Path) -> None:
    club = Path(shutil.copytree(two_players, tmp_path / "club"))
    (club / "tight.yaml").write_text(SQUAD.replace('to: "19:00"', 'to: "17:05"'), "utf-8")
    days = ("squad", "slots", club / "tight.yaml", "--from", "2025-09-29", "--days")
    told = run(*days, 1)
    assert told.code == 1 and "without Twin Ostrom. No fewer can be left out." in told.out
    assert "rack 16:30–16:40: 2 wanted, 1 there" in told.out
    (command,) = (line.split() for line in told.out.splitlines() if line.startswith("    jumpblock change"))
    changed = run(*command[1:])
    assert changed.code == 0 and "No rule is broken" in changed.err
    again = run(*days, 2)
    assert again.code == 0


def test_an_athlete_without_a_block_is_told_and_left_out(two_players: Path, run: Any) -> None:
    lone = two_players / "lone.yaml"
    lone.write_text(SQUAD.replace("templates/athletes/twin.yaml", ADULT), "utf-8")
    told = run("squad", "slots", lone, "--days", 1)
    assert told.code == 0 and "warning: [no-block] adult-one-leg-jumper has no block" in told.err
    three = f"{ADULT}, templates/athletes/youth-two-leg-jumper.yaml"
    lone.write_text(SQUAD.replace("templates/athletes/twin.yaml", three), "utf-8")
    (line,) = (line for line in run("squad", "overview", lone).err.splitlines() if "[no-block]" in line)
    assert "2 athletes have no block: adult-one-leg-jumper, youth-two-leg-jumper; plan: jumpblock squad plan" in line
    assert line.endswith("lone.yaml")


def test_who_is_too_sore_gets_no_start_and_no_card(two_players: Path, run: Any, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(two_players, tmp_path / "coach"))
    twin, squad = folder / "templates/athletes/twin.yaml", folder / "squad.yaml"
    change(folder / "twin.yaml", "in-season-player.yaml", "twin.yaml")
    change(twin, "pain: 0", "pain: 7")
    told = run("squad", "slots", squad, "--days", 1, "--cards", tmp_path / "cards.pdf")
    assert told.code == 0 and "pain 7 of 10" in told.err and "Twin" not in told.out
    assert len(PdfReader(tmp_path / "cards.pdf").outline) == 1
    assert "Twin" in run("squad", "overview", squad).out
    change(twin, "pain: 7", "pain: 1")
    told = run("squad", "slots", squad, "--days", 1)
    assert "Twin" in told.out and "[changed-athlete]" in told.err


def test_the_overview_in_each_form(two_players: Path, run: Any, tmp_path: Path) -> None:
    squad = two_players / "squad.yaml"
    rows = run("squad", "overview", squad, "--sort", "gap", "--json").json["athletes"]
    assert [row["athlete"] for row in rows] == ["twin", "in-season-player"] or rows[0]["gap_N"] == rows[1]["gap_N"]
    for name in ("o.csv", "o.xlsx", "o.pdf"):
        assert run("squad", "overview", squad, "-o", tmp_path / name).code == 0
    table = list(csv.reader(io.StringIO((tmp_path / "o.csv").read_text("utf-8-sig"))))
    cells = [[cell.value for cell in row] for row in load_workbook(tmp_path / "o.xlsx").active]
    assert [[str("" if one is None else one) for one in row] for row in cells] == [
        ["" if one == "None" else one for one in row] for row in table
    ]
    assert "Twin Ostrom" in PdfReader(tmp_path / "o.pdf").pages[0].extract_text()
    assert run("squad", "overview", squad, "-o", tmp_path / "o.txt").code == 1
    assert run("squad", "overview", squad, "-o", tmp_path / "o.pdf").code == 1  # it is there already


def test_the_columns_are_explained_and_their_heads_as_large_as_the_others(two_players: Path, run: Any) -> None:
    told = run("squad", "overview", two_players / "squad.yaml").out
    words = " ".join(told.split())
    for word in ("Week of Monday 8 September 2025.", "error: one standard error", "of the plan.", "Pain: 0 to 10"):
        assert word in words
    heads, row = (next(line for line in told.splitlines() if line.startswith(name)) for name in ("athlete", "Twin"))
    assert row[heads.index("short of")] not in " %"  # words begin below their head
    for names, shares in ((HEADS, _SHARES), ((*HEADS, *CHANGE_HEADS), _CHANGE_SHARES)):
        assert round(sum(shares), 9) == 1
        for name, share in zip(names, shares, strict=True):
            assert width_of(name.format(unit="cm"), "bold", 9.5) < share * 785 - 5, name


def test_pain_is_of_the_last_week_logged_and_of_the_file(two_players: Path, run: Any, tmp_path: Path) -> None:
    club = Path(shutil.copytree(two_players, tmp_path / "club"))
    squad, twin = club / "squad.yaml", club / "templates/athletes/twin.yaml"

    def pain(day: str) -> Any:
        rows = run("squad", "overview", squad, "--date", day, "--json").json["athletes"]
        return next(row["pain"] for row in rows if row["athlete"] == "twin")

    text = twin.read_text("utf-8")
    assert pain("2025-09-08") == 0 and "pain: 0" in text
    twin.write_text(re.sub(r"joints:.*\n(?: +-? .*\n)*", "", text), "utf-8")
    assert pain("2025-09-08") is None  # nobody asked
    days = {"w1s1": 0, "w1s2": 4, "w2s1": 2, "w2s2": 0, "w3s1": 1}
    for session, worst in days.items():
        words = ("--pain", f"left knee 0 {worst}") if worst else ()
        assert run("log", club / "twin.yaml", session, "--as-planned", "--effort", 5, *words).code == 0
    assert [pain(day) for day in ("2025-09-08", "2025-09-15", "2025-09-22", "2025-10-20")] == [4, 2, 1, 1]


RETEST = """tests:
  - kind: touch
    date: 2025-10-02
    method: vane tape on a wall, read by eye
    take_off: two-leg
    run_up: true
    trials: [3.04 m, 3.05 m, 3.05 m]
"""


def test_an_athlete_tested_after_the_block_has_a_line_in_the_caterpillar(
    two_players: Path, run: Any, tmp_path: Path
) -> None:
    club = Path(shutil.copytree(two_players, tmp_path / "club"))
    twin = club / "templates/athletes/twin.yaml"
    twin.write_text(twin.read_text("utf-8").replace("tests:\n", RETEST, 1), "utf-8")
    text = (club / "twin.yaml").read_text("utf-8")
    (club / "twin.yaml").write_text(text.replace("templates/athletes/in-season-player", "templates/athletes/twin"))
    told = run("squad", "overview", club / "squad.yaml", "--sort", "change", "--json")
    twins, other = told.json["athletes"]
    assert twins["athlete"] == "twin" and other["change"] is None
    assert "[changed-athlete]" not in told.err  # a retest is no reason to plan the block again
    believed, ends = twins["change"]["believed"]["value"], twins["change"]["believed"]["interval"]
    assert ends[0] < believed < twins["change"]["seen"]["value"] < ends[1]
    assert run("squad", "overview", club / "squad.yaml", "-o", tmp_path / "o.csv").code == 0
    assert f",{round(100 * believed, 1):g}," in (tmp_path / "o.csv").read_text("utf-8-sig")
    assert run("squad", "overview", club / "squad.yaml", "-o", tmp_path / "o.pdf").code == 0
    text = PdfReader(tmp_path / "o.pdf").pages[1].extract_text()
    assert "are no ranking" in text and "Twin Ostrom" in text and f"{100 * believed:+.1f} cm" in text


def test_changes_of_several_pages_share_one_axis() -> None:
    usual, rule = Estimate(0.029, 0.025), shipped()[0]
    seen = {f"Athlete {n}": Estimate(0.003 * n - 0.02, 0.02) for n in range(30)}
    pages = change_pages("S", {name: verdict_on(one, usual, 0.015, rule) for name, one in seen.items()})
    drawn = PdfReader(io.BytesIO(draw_tables([], paper="a4", pictures=pages))).pages
    first, second = (page.extract_text() for page in drawn)
    assert first.index("Athlete 29") < first.index("Athlete 28") and "Athlete 0" in second
    assert [line for line in first.splitlines() if line.startswith("+") and line[1:].isdigit()] == [
        line for line in second.splitlines() if line.startswith("+") and line[1:].isdigit()
    ]


def test_a_row_of_the_wall_is_a_quarter_of_an_hour() -> None:
    stays = [Stay("Ada", "rack", 960, 975), Stay("Bo", "rack", 974, 980)]
    table = wall_table("T", "S", ["rack"], [(960, "Ada"), (970, "Bo")], stays)
    assert [list(row) for row in table.rows] == [
        ["16:00", "Ada, Bo 16:10", "Ada, Bo"],
        ["16:15", "", "Bo"],
    ]


def test_the_heads_of_a_table_have_one_size() -> None:
    table = WideTable("T", "S", ["athlete", "change (cm)"], [0.9, 0.1], [["Ada", "4.3"]])
    (page,) = PdfReader(io.BytesIO(draw_tables([table], paper="a5"))).pages
    sizes: dict[str, float] = {}
    page.extract_text(visitor_text=lambda text, cm, tm, font, size: sizes.update({text.strip(): size}))
    assert sizes["athlete"] == sizes["change (cm)"] < 9.5


def test_long_tables_take_more_pages_and_odd_letters_are_refused() -> None:
    rows = [[f"{n}", ", ".join(["somebody with a long name"] * 9)] for n in range(80)]
    pages = PdfReader(io.BytesIO(draw_tables([WideTable("T", "S", ["a", "b"], [0.1, 0.9], rows)], paper="a4"))).pages
    assert len(pages) > 1
    text = "".join(page.extract_text() for page in pages)
    assert all(f"\n{n}" in text or f"{n}\n" in text for n in (0, 41, 79))
    with pytest.raises(UserError):
        draw_tables([WideTable("T", "S", ["a"], [1.0], [["\U0001f600"]])], paper="a4")
