"""What the system refuses is told and ends with exit 1; only a fault of ours ends with 70."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys

import pytest

from planner.cli import main
from tests.campaign.stage import contents
from tests.cli.conftest import CHECKOUT, change

COMMAND = [sys.executable, "-m", "planner"]
LONG = "x" * 300  # no file system takes a name of more than 255 bytes


def jumpblock(words: list[str], redirect: str) -> subprocess.CompletedProcess[bytes]:
    """Run in a shell, with its streams as ``redirect`` says."""
    line = f'exec "$@" {redirect}'
    return subprocess.run(["sh", "-c", line, "sh", *COMMAND, *words], capture_output=True, cwd=CHECKOUT, check=False)


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="there is no such device here")
def test_a_full_disk_is_no_bug() -> None:
    done = jumpblock(["rules", "growth"], "> /dev/full")
    assert done.returncode == 1
    assert b"No space left" in done.stderr and b"bug" not in done.stderr
    assert jumpblock(["gap", "none.yaml"], "2> /dev/full").returncode == 1


@pytest.mark.parametrize("redirect", ["2>&-", ">&- 2>&- <&-"])
def test_a_closed_stream_is_no_bug(coach, redirect) -> None:
    cards = coach / "cards.pdf"
    done = jumpblock(["cards", str(coach / "block.yaml"), "-o", str(cards), "--week", "1"], redirect)
    assert done.returncode == 0
    assert cards.read_bytes().startswith(b"%PDF-")  # and no remark in it, though the file got a stream's number


@pytest.mark.parametrize(
    "words",
    [("check", LONG), ("gap", LONG), ("start", LONG), ("cards", "block.yaml", "-o", LONG), ("plan", LONG),
     ("library", "list", "--library", LONG), ("log", "block.yaml", "--log", LONG, "--as-planned"), ("platform", LONG),
     ("cards", "block.yaml", "-o", "c.pdf", "--templates", LONG), ("check", "x/" * 3000)],
)  # fmt: skip
def test_a_name_that_is_too_long_is_no_bug(run, coach, monkeypatch, words) -> None:
    monkeypatch.chdir(coach)
    before = sorted(os.listdir(coach))
    outcome = run(*words)
    assert outcome.code == 1 and "too long" in outcome.err
    assert sorted(os.listdir(coach)) == before


@pytest.mark.parametrize(
    "words", [("cards", "block.yaml", "-o"), ("log", "block.yaml", "--as-planned", "--log"), ("gap",)]
)
def test_a_link_to_itself_is_no_bug(run, coach, monkeypatch, words) -> None:
    monkeypatch.chdir(coach)
    (coach / "loop.yaml").symlink_to("loop.yaml")
    outcome = run(*words, "loop.yaml")
    assert outcome.code == 1 and "symbolic links" in outcome.err


def test_a_folder_without_permission_is_no_bug(run, coach, monkeypatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(coach / "block.yaml"))

    monkeypatch.setattr("planner.files.load.read_bytes", refuse)
    outcome = run("why", coach / "block.yaml", "--week", 1)
    assert outcome.code == 1 and "Permission denied" in outcome.err


def test_a_name_that_is_not_utf_8_is_no_bug(run) -> None:
    outcome = run("gap", os.fsdecode(b"a\xff\xfeb.yaml"))
    assert outcome.code == 1 and "there is no such file" in outcome.err


NO_TEXT = os.fsdecode(b"a\xff")
LIBRARY = ("--library", "exercise_library")


@pytest.mark.parametrize(
    "words",
    [("log", "block.yaml", "w1s1", "--note", NO_TEXT), ("library", "edit", "pogo", f"name={NO_TEXT}", *LIBRARY),
     ("library", "add", "x-pogo", "--like", "pogo", f"name={NO_TEXT}", *LIBRARY),
     ("plan", f"{NO_TEXT}.yaml", "-o", "new.yaml"), ("log", f"{NO_TEXT}-block.yaml", "w1s1", "--as-planned")],
)  # fmt: skip
def test_what_no_file_of_ours_can_hold_is_no_bug_and_writes_nothing(run, coach, monkeypatch, words) -> None:
    monkeypatch.chdir(coach)
    shutil.copyfile("templates/athletes/in-season-player.yaml", f"{NO_TEXT}.yaml")
    shutil.copyfile("block.yaml", f"{NO_TEXT}-block.yaml")
    before = contents(coach)
    outcome = run(*words)
    assert outcome.code == 1 and "[not-text]" in outcome.err and "bug" not in outcome.err
    assert contents(coach) == before


@pytest.mark.parametrize("words", [("\x1b]0;",), ("gap", "a", "\x1b]0;"), ("gap", "--\x1b]0;"), ("plan", "\x1b]0;")])
def test_what_was_typed_is_not_printed_raw_on_a_terminal(monkeypatch, words) -> None:
    terminal = io.StringIO()
    monkeypatch.setattr(terminal, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys, "stderr", terminal)
    assert main(list(words)) in (1, 2)
    assert "]0;" in terminal.getvalue() and "\x1b]0;" not in terminal.getvalue()


@pytest.mark.parametrize("words", [("check",), ("gap",), ("rules",), ("library", "show"), ("start",)])
def test_a_name_that_a_terminal_would_obey_is_not_printed_raw(run, tmp_path, words) -> None:
    (tmp_path / "file").write_text("")
    name = tmp_path / "\x1b]0;x\x07\u202e" if words != ("start",) else tmp_path / "file\x1b" / "\u202e"
    if words == ("start",):
        (tmp_path / "file\x1b").write_text("")
    outcome = run(*words, name)
    assert outcome.code == 1
    assert not {"\x1b", "\x07", "\u202e"} & set(outcome.out + outcome.err)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("path: templates/athletes/in-season-player.yaml", "path: /etc/passwd", "not-complete"),
        ("path: templates/athletes/in-season-player.yaml", "path: secret.txt", "wrong-file-kind"),
        ("path: exercise_library", "path: (packaged)/exercise_library/../../..", "not-complete"),
        ("path: exercise_library", "path: deep", "too-many-files"),
    ],
)
def test_a_block_of_somebody_else_shows_no_other_files(run, coach, monkeypatch, old, new, code) -> None:
    monkeypatch.setattr("planner.files.load.MOST_ENTRIES", 100)
    (coach / "secret.txt").write_text("file: secret/1\ntoken: 12345\n")
    (coach / "deep").mkdir()
    for number in range(120):
        (coach / "deep" / str(number)).touch()
    change(coach / "block.yaml", old, new)
    outcome = run("check", coach / "block.yaml")
    assert outcome.code == 1 and f"[{code}]" in outcome.out
    assert "12345" not in outcome.out and "root:" not in outcome.out


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="nobody refuses the administrator a folder")
def test_a_folder_that_may_not_be_read_is_not_told_as_an_empty_one(run, coach) -> None:
    (coach / "exercise_library").chmod(0)
    try:
        outcome = run("check", coach / "exercise_library")
    finally:
        (coach / "exercise_library").chmod(0o755)
    assert outcome.code == 1 and "Permission denied" in outcome.err and "no YAML files" not in outcome.out


def test_a_folder_that_the_system_refuses_is_no_empty_one(run, coach, monkeypatch) -> None:
    def refuse(path: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr("planner.files.load.os.scandir", refuse)
    outcome = run("check", coach / "exercise_library")
    assert outcome.code == 1 and "Permission denied" in outcome.err and "no YAML files" not in outcome.out
