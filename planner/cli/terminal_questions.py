"""Questions at a terminal: one at a time on stderr, so that stdout stays the result's."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from planner.jobs.question import Check


def at_terminal() -> bool:
    """Whether there is someone to ask."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def ask(question: str, default: str, check: Check) -> str:
    """One question, asked again until ``check`` takes the answer. Enter takes what is in brackets."""
    from planner.report.terminal import fit

    def proc(answer: str) -> str:
        try:
            return check(answer.strip())
        except ValueError as error:
            raise click.UsageError(str(error)) from None

    words = fit(f"{question} [{default}]:" if default else f"{question}:")
    found: str = click.prompt(words, default=default, show_default=False, prompt_suffix=" ", value_proc=proc, err=True)
    return found
