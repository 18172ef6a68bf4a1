"""Pipes and devices may have no end, or wait for ever: they are neither read nor replaced."""

from __future__ import annotations

import os

import pytest

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no such files here")


@pytest.fixture
def pipe(tmp_path):
    path = tmp_path / "pipe.yaml"
    os.mkfifo(path)
    return path


@pytest.mark.parametrize("command", ["check", "gap", "plan", "revise", "why", "platform", "log", "outcome"])
def test_no_command_waits_for_a_pipe(run, pipe, tmp_path, command) -> None:
    more = {"plan": ["-o", tmp_path / "block.yaml"], "why": ["--week", "1"], "log": ["--as-planned"]}.get(command, [])
    outcome = run(command, pipe, *more)
    assert outcome.code == 1 and "a device or a pipe" in outcome.out + outcome.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["pipe.yaml"]


@pytest.mark.parametrize("command", ["cards", "calendar", "plan", "revise"])
def test_no_output_replaces_a_pipe(run, coach, pipe, command) -> None:
    source = coach / "templates/athletes/in-season-player.yaml" if command == "plan" else coach / "block.yaml"
    outcome = run(command, source, "-o", pipe)
    assert outcome.code == 1 and "a device or a pipe" in outcome.err
    assert pipe.is_fifo()


def test_a_device_without_an_end_is_not_read(run) -> None:
    outcome = run("check", "/dev/zero")
    assert outcome.code == 1 and "a device or a pipe" in outcome.out + outcome.err
