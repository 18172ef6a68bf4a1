"""On a terminal of 60, 80 or 120 columns no line is wider than it; into a file or a pipe the width is steady."""

from __future__ import annotations

import os
import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from planner.cli.app import jumpblock
from planner.domain.findings import Finding
from planner.estimate.estimate_gap import estimate_gap
from planner.files.render import format_finding
from planner.jobs.follow_block import follow_block
from planner.report import terminal
from planner.report.gap_text import gap_text
from planner.report.library_choice import Choice, chosen
from planner.report.library_cover import cover, cover_text
from planner.report.library_text import list_text, movement_text
from planner.report.plan_text import plan_text
from planner.report.progress_text import progress_text
from planner.report.rules_text import rules_text
from planner.report.slots_text import slots_text
from planner.report.why_data import block_data
from planner.report.why_text import block_text
from planner.rules.registry import all_rules
from planner.solve.explain import tight_rows
from tests.cli.terminal import Terminal
from tests.demos.adult_folder import adult_folder
from tests.demos.three_blocks import LOG, run
from tests.estimate.people import demo, shipped_benchmarks
from tests.solve.demos import shipped_library, solved, template

WIDTHS = (60, 80, 120)
COMMANDS = (
    "gap milo.yaml", "gap milo.yaml --full", "plan milo.yaml -o new.yaml", "why milo-block.yaml",
    "why milo-block.yaml --session w2s1", "why milo-block.yaml back-squat", "check milo-block.yaml",
    "check broken.yaml", "library show back-squat", "library list", "library cover", "progress milo-block.yaml",
    "rules", "test milo.yaml --show",
)  # fmt: skip
START = {"start": "09:00", "end": "10:15", "name": "Ana Prado", "hall": "gym", "as_on_the_card": True}


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """The adult demo's folder with its block and log, and an athlete's file with a fault in a long line."""
    coach = adult_folder(tmp_path_factory.mktemp("narrow") / "coach")
    run("log", coach / "milo-block.yaml", "--from", LOG)
    text = (coach / "milo.yaml").read_text("utf-8")
    assert "take_off: one-leg left" in text
    (coach / "broken.yaml").write_text(text.replace("take_off: one-leg left", f"take_off: {'left leg ' * 30}", 1))
    return coach


@pytest.fixture(scope="module")
def texts(folder: Path):
    """What is said of the adult demo, each made anew for the terminal of the moment."""
    athlete, library, adult = demo("adult-one-leg-jumper"), shipped_library(), solved("adult")
    gap = estimate_gap(athlete, shipped_benchmarks())
    why = block_data(adult.block, tight_rows(adult.block, adult.problem), adult.problem)
    followed = follow_block(str(folder / "milo-block.yaml"))
    stations = [{"station": f"rack {number}", "from": "09:20"} for number in range(6)]
    day = {"date": "2025-09-08", "starts": [{**START, "items": stations}], "status": "optimal", "cost": 0, "bound": 0}
    return lambda: {
        "gap": gap_text(gap, athlete, full=True),
        "plan": plan_text(adult.block, len(library)),
        "why": block_text(why),
        "progress": progress_text(followed),
        "a movement": movement_text(library["back-squat"], library, [template("eight-week")]),
        "movements": list_text(chosen(library, Choice()), library),
        "cover": cover_text(cover(library, {"full gym": None, "body weight": frozenset()}), len(library)),
        "rules": rules_text(all_rules(), template("eight-week")),
        "start times": slots_text([{**day, "over": [], "without": None}]),
    }


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_is_wider_than_the_terminal(width: int, texts, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal, "columns", lambda: width)
    for name, text in texts().items():
        assert not [line for line in text.split("\n") if len(line) > width], name
        assert max(len(line) for line in text.split("\n")) > min(width, 90) - 15, f"{name} leaves room unused"


@pytest.mark.parametrize("width", WIDTHS)
def test_a_page_of_help_fits_and_breaks_no_word(width: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of every command and those below it: each option, its value and its sentence are on the page, word for word."""
    monkeypatch.setattr("shutil.get_terminal_size", lambda *_, **__: os.terminal_size((width, 40)))
    assert len(list(_pages())) > 30
    for ctx in _pages():
        page = ctx.get_help()
        assert not [line for line in page.split("\n") if len(line) > width], page
        words = page.split()
        for param in (one for one in ctx.command.get_params(ctx) if isinstance(one, click.Option)):
            assert all(name.rstrip(",") in (word.rstrip(",") for word in words) for name in param.opts), page
            assert " ".join((param.help or "").split()) in " ".join(words), page
            assert not param.metavar or f"{max(param.opts, key=len)} {param.metavar}" in " ".join(words), page
        told = page.partition("Commands:\n")[2].splitlines()
        assert not [line for line in told if line.endswith("...")], page


def _pages(ctx: click.Context | None = None) -> Iterator[click.Context]:
    """Of ``jumpblock``, or of the command of ``ctx``, and all below it."""
    ctx = ctx or jumpblock.context_class(jumpblock, info_name="jumpblock", **jumpblock.context_settings)
    yield ctx
    if isinstance(ctx.command, click.Group):
        for name in ctx.command.list_commands(ctx):
            below = ctx.command.get_command(ctx, name)
            assert below is not None
            yield from _pages(below.context_class(below, info_name=name, parent=ctx))


def test_no_help_says_what_an_option_takes_in_a_programmers_words() -> None:
    for ctx in _pages():
        assert not re.findall(r"%Y|<=|>=|INTEGER|FLOAT", ctx.get_help())


def test_a_table_too_wide_names_each_figure_by_its_head(texts, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal, "columns", lambda: 60)
    said = texts()["gap"]
    assert re.search(r"^take-off speed\n  now     \S+ ± \S+ m/s\n  target  \S+ ± \S+ m/s\n  gap  ", said, re.MULTILINE)


def test_a_finding_is_folded_and_its_caret_stays_under_its_place() -> None:
    line = f"take_off: {'left leg ' * 30}"
    one = Finding("ana.yaml", 11, 200, "not-a-choice", "words " * 30, "do this instead", source_line=line)
    *said, source, caret = format_finding(one, color=False, width=60).split("\n")
    assert len(said) > 2 and all(len(text) <= 60 for text in (*said, source, caret))
    assert source[caret.index("^")] == line[199] and source.strip() in line
    coloured = format_finding(one, color=True, width=60)
    assert re.sub(r"\x1b\[\d*m", "", coloured).split("\n") == [*said, source, caret]


def test_a_command_to_copy_stays_on_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal, "columns", lambda: 60)
    command = f"Next: jumpblock cards {'a' * 60}.yaml -o b.pdf"
    assert terminal.fit(command) == command and "\n" in terminal.fit(command.replace("jumpblock", "print"))


@pytest.mark.parametrize(("told", "taken"), [(20, 60), (60, 60), (77, 77), (120, 120), (300, 120)])
def test_a_width_from_60_to_120_is_taken(told: int, taken: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.isatty", lambda stream: True)
    monkeypatch.setattr("shutil.get_terminal_size", lambda **_: os.terminal_size((told, 40)))
    assert terminal.columns() == taken


def test_a_real_terminals_width_is_taken(folder: Path) -> None:
    assert screen("rules growth", folder, 60) <= 60 < screen("rules growth", folder, 77) <= 77


def test_without_a_terminal_the_width_is_steady(texts) -> None:
    assert terminal.columns() is None
    assert max(len(line) for line in texts()["gap"].split("\n")) <= terminal.STEADY


@pytest.mark.long
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_keeps_to_a_real_terminal(command: str, width: int, folder: Path) -> None:
    assert screen(command, folder, width) <= width


def screen(command: str, folder: Path, columns: int) -> int:
    """The widest line on the screen, but for commands to copy and the line that says what is being done."""
    terminal = Terminal(*shlex.split(command), folder=folder, columns=columns)
    terminal.end()
    said = re.sub(r"\x1b\[\d*m", "", re.sub(r"\r\x1b\[K[^\r\n]*(?=\r)", "", terminal.screen))
    lines = [line for line in said.replace("\r\x1b[K", "").split("\n") if "jumpblock " not in line]
    return max(len(line) for line in lines)
