"""A command run with its results and its remarks apart, as every release of click can."""

from __future__ import annotations

from inspect import signature

from click import Command
from click.testing import CliRunner, Result

_APART = {"mix_stderr": False} if "mix_stderr" in signature(CliRunner).parameters else {}  # until click 8.2


def run(command: Command, *arguments: object) -> Result:
    return CliRunner(**_APART).invoke(command, list(map(str, arguments)))
