"""The exit code is what a script reads: 0, 1, 2, 70, 130, and nothing else."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from functools import partial

import pytest

import planner.report.rules_text
from planner.cli import main
from tests.cli.conftest import CHECKOUT, athlete

COMMAND = [sys.executable, "-m", "planner"]


@pytest.mark.parametrize(
    "words",
    [("nonsense",), ("plan",), ("plan", "a.yaml", "--start", "soon"), ("plan", "a.yaml", "--budget", "-1"), ("check",),
     ("cards", "b.yaml"), ("cards", "b.yaml", "-o", "c.pdf", "--paper", "a3"), ("gap", "a.yaml", "--loud")],
)  # fmt: skip
def test_misuse_is_2_and_says_how_to_go_on(run, words):
    outcome = run(*words)
    assert outcome.code == 2
    assert "Error:" in outcome.err and "--help" in outcome.err
    assert not outcome.raw


@pytest.mark.parametrize(
    "words", [("gap", "none.yaml"), ("plan", "none.yaml"), ("cards", "none.yaml", "-o", "c.pdf"), ("rules", "none")]
)
def test_a_refusal_is_1_with_its_findings_on_stderr(run, words):
    outcome = run(*words)
    assert outcome.code == 1
    assert not outcome.raw
    assert "Traceback" not in outcome.err and "[" in outcome.err


def test_version_and_help_are_0(run):
    assert run("--version").out.startswith("jumpblock ")
    assert run("--help").code == 0


def test_a_bug_is_70_with_its_traceback(run, monkeypatch):
    def broken(*_):
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(planner.report.rules_text, "rules_text", broken)
    outcome = run("rules")
    assert outcome.code == 70
    assert "this is a bug in jumpblock" in outcome.err
    assert "ZeroDivisionError: planted" in outcome.err and "Traceback" in outcome.err
    assert not outcome.raw


def test_an_interrupt_is_130(run, monkeypatch):
    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(planner.report.rules_text, "rules_text", interrupted)
    outcome = run("rules")
    assert outcome.code == 130
    assert "Traceback" not in outcome.err


def test_an_interrupt_before_any_command_is_130(run, monkeypatch):
    def interrupt():
        raise KeyboardInterrupt

    monkeypatch.setattr("planner.cli.app.open_closed_streams", interrupt)
    assert run("--version").code == 130


@pytest.mark.skipif(os.name == "nt", reason="the signal is sent the POSIX way")
def test_an_interrupt_while_solving_stops_at_once_and_writes_nothing(planned, tmp_path):
    block = tmp_path / "block.yaml"
    command = [*COMMAND, "plan", str(athlete(planned, "adult-one-leg-jumper")), "-o", str(block)]
    at_once_s = 3.0
    # A shell that runs the tests in the background hands down a Ctrl-C that is ignored; here it is the user's again.
    heard = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(command, stderr=subprocess.PIPE, cwd=CHECKOUT, preexec_fn=heard) as process:
        process.stderr.readline()  # the first choice is printed, so the files are read and solving begins
        time.sleep(1)
        process.send_signal(signal.SIGINT)
        started = time.monotonic()
        said = process.stderr.read().decode()
        code = process.wait()
    assert code == 130, said
    assert time.monotonic() - started < at_once_s
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.name == "nt", reason="pipes close otherwise there")
def test_a_reader_that_goes_away_is_no_trouble():
    with subprocess.Popen([*COMMAND, "rules"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=CHECKOUT) as process:
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() == 0


def test_an_interrupt_while_a_package_loads_is_an_interrupt(monkeypatch, capsys):
    def interrupted(**_):
        raise ImportError("initialization failed") from KeyboardInterrupt()

    monkeypatch.setattr("planner.cli.app.jumpblock.main", interrupted)
    assert main(["plan"]) == 130
    assert "interrupted" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "says"),
    [(["plna"], "did you mean 'plan'?"), (["library", "lst"], "did you mean 'list'?"), (["zzz"], "--help lists all")],
)
def test_a_slip_in_a_command_gets_its_suggestion(run, words, says):
    outcome = run(*words)
    assert outcome.code == 2 and says in outcome.err
