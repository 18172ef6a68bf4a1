"""What the commands print: the result on stdout, all else on stderr; and a command that turns refusals into words."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, Self, TextIO

import click

from planner.cli.help_page import Context, name_values
from planner.domain.findings import Finding, UserError

if TYPE_CHECKING:
    from planner.jobs.safe_output import Output

CLEAR_LINE = "\r\x1b[K"


class Command(click.Command):
    """A command that prints the findings and exits 1 where the input or the rules refuse it.

    Findings go to stderr; where the command has ``--json`` and it was given, to stdout as data.
    """

    context_class = Context

    def __init__(self, *words: Any, **options: Any) -> None:
        super().__init__(*words, **options)
        name_values(self.params)

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except UserError as error:
            if ctx.params.get("as_json"):
                result(findings_json(error.findings))
            else:
                show_findings(error.findings)
            ctx.exit(1)


class Group(click.Group):
    """A group of commands that names the nearest one where there is none of the name that was typed."""

    context_class = Context

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0][:1] != "-" and self.get_command(ctx, args[0]) is None:
            from planner.files.suggest import did_you_mean

            hint = (
                did_you_mean(args[0], self.list_commands(ctx), most_listed=0) or f"{ctx.command_path} --help lists all"
            )
            ctx.fail(f"There is no command '{args[0]}'; {hint}")
        return super().resolve_command(ctx, args)


def result(content: str | bytes) -> None:
    """The command's result on stdout: text as UTF-8, whatever the locale. A reader that has gone is not an error."""
    if isinstance(content, str):
        encoded = content.encode("utf-8", "backslashreplace")  # a file's name may hold bytes that are not UTF-8
        content = encoded.decode("utf-8") if sys.stdout.isatty() else encoded
    try:
        click.echo(content, nl=False)
        sys.stdout.flush()
    except BrokenPipeError:
        silence(sys.stdout)
        raise click.exceptions.Exit(0) from None


def note(text: str) -> None:
    """A remark for the person at the terminal, on stderr. One that cannot be printed stops nothing."""
    from planner.files.text import printable
    from planner.report.terminal import fit

    _remark(f"{fit(printable(text))}\n")


def _remark(text: str) -> None:
    try:
        click.echo(text, nl=False, err=True)
    except OSError:
        silence(sys.stderr)


def silence(stream: TextIO) -> None:
    """Nothing more is printed there. Python flushes its streams once more at exit; that must not fail either."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def open_closed_streams() -> None:
    """A stream that was closed before we began goes nowhere. Else the next file opened would get its number."""
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:
            opened = open(os.devnull, "r" if name == "stdin" else "w", encoding="utf-8")  # noqa: SIM115
            setattr(sys, name, opened)


def show_findings(findings: Iterable[Finding], *, on_stdout: bool = False) -> None:
    """Findings as text, in colour on a terminal unless NO_COLOR is set."""
    from planner.files.render import format_finding
    from planner.report.terminal import columns

    stream = sys.stdout if on_stdout else sys.stderr
    color = stream.isatty() and not os.environ.get("NO_COLOR")
    text = "".join(f"{format_finding(finding, color, columns())}\n" for finding in findings)
    if on_stdout:
        result(text)
    elif text:
        _remark(text)


def findings_json(findings: Iterable[Finding]) -> str:
    return to_json(findings_data(findings))


def findings_data(findings: Iterable[Finding]) -> dict[str, Any]:
    from planner.files.render import finding_to_json

    return {"findings": [finding_to_json(finding) for finding in findings]}


def to_json(value: Any) -> str:
    import json

    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def deliver(content: str | bytes, file: Output | None) -> None:
    """The command's result into its file, which is named; to stdout where there is none."""
    if file is None:
        result(content)
        return
    file.write(content.encode("utf-8") if isinstance(content, str) else content)
    note(f"Written: {file.path}")


class Progress:
    """One line that says what is being done, replaced as it goes on; only on a terminal. Within ``with``."""

    def __init__(self) -> None:
        self._shown = sys.stderr.isatty()

    def __enter__(self) -> Self:
        return self

    def __call__(self, text: str) -> None:
        if self._shown:
            # What runs on into a second line could not be taken back.
            most = shutil.get_terminal_size().columns - len(" ...")
            _remark(f"{CLEAR_LINE}{text[:most]} ...")

    def __exit__(self, *_: object) -> None:
        if self._shown:
            _remark(CLEAR_LINE)
