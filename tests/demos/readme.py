"""The samples of README: what it shows below each command, to be compared with what the command prints."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


def sample(command: str) -> list[str]:
    """The lines that README shows below ``$ jumpblock command``; ``...`` stands for lines left out."""
    found = re.search(rf"^\$ jumpblock {re.escape(command)}\n(.*?)(?=^\$ |^```)", README, re.MULTILINE | re.DOTALL)
    assert found is not None, f"README shows no '{command}'"
    return [line for line in found.group(1).split("\n") if line.strip() not in ("", "...")]


def in_order(shown: Iterable[str], printed: str) -> list[str]:
    """The lines shown that are not printed behind the one before."""
    lines, missing = iter(printed.split("\n")), []
    for line in shown:
        if not any(line == one for one in lines):
            missing.append(line)
            lines = iter(())
    return missing


def shown(first_word: str) -> list[str]:
    """README's commands that begin with the word, in order, without a remark behind them."""
    return [
        command.partition("  #")[0].rstrip()
        for command in re.findall(rf"^\$ jumpblock ({first_word} .*)$", README, re.MULTILINE)
    ]
