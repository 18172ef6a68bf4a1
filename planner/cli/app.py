"""The ``jumpblock`` command and its exit codes: 0 done, 1 a refusal, 2 misuse, 70 a bug of ours, 130 interrupted."""

from __future__ import annotations

import gc
import importlib
import io
import os
import sys
from collections.abc import Sequence

import click

import planner
from planner.cli.output import Group, note, open_closed_streams, silence

# In the order of a coach's work; each is `command` in the file of its name.
COMMANDS = (
    *("start", "new", "gap", "platform", "test", "plan", "cards", "calendar", "log", "progress", "outcome", "revise"),
    *("change", "squad", "check", "why", "library", "rules"),
)
DONE, REFUSED, BUG, INTERRUPTED = 0, 1, 70, 130
LONGEST_NAME = 100  # of a path that is printed
_GARBAGE_AFTER = 300_000  # new objects; Python's own number is 700


class LazyGroup(Group):
    """Reads a command's file only when that command is asked for, or its line of help is."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        found: click.Command = importlib.import_module(f"planner.cli.{cmd_name}").command
        return found


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["--help", "-h"]})
@click.version_option(planner.__version__, message="%(prog)s %(version)s")
def jumpblock() -> None:
    """From a jump test to a training block with a proof, and cards for the gym floor.

    Training suggestions, not medical advice: pain that is sharp, above 5 of 10 or worse next morning stops the work and
    goes to a clinician.

    Tab completes commands, options, files, sessions and movements after this line, in zsh with zsh_source:

    \b
    eval "$(_JUMPBLOCK_COMPLETE=bash_source jumpblock)"
    """


def run() -> int:
    """``main`` in a process of its own. Garbage in cycles is searched for seldom, and not at the end.

    Python would look through all that a command has read again and again: a third of a short command's time.
    """
    gc.set_threshold(_GARBAGE_AFTER)
    code = main()
    gc.freeze()
    return code


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code. Nothing but KeyboardInterrupt's own signal gets past it."""
    try:
        open_closed_streams()
        code = jumpblock.main(args=arguments, prog_name="jumpblock", standalone_mode=False)
        return code if isinstance(code, int) else DONE
    except click.ClickException as error:
        note(_shown(error))
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        note("interrupted; nothing was written")
        return INTERRUPTED
    except OSError as error:
        return _system(error)
    except Exception as error:
        if isinstance(error, ValueError) and (name := _not_text([*(arguments or sys.argv[1:]), os.getcwd()])):
            note(f"[not-text] '{name[:LONGEST_NAME]}' holds bytes that are not UTF-8; type it anew, or rename it")
            return REFUSED
        # A package that is interrupted while it loads says that it cannot be loaded.
        if isinstance(error, ImportError) and _by_interrupt(error):
            note("interrupted; nothing was written")
            return INTERRUPTED
        return _bug()


def _shown(error: click.ClickException) -> str:
    """What click says of a misuse. It repeats what was typed, which must not reach a terminal as it is."""
    said = io.StringIO()
    error.show(said)
    return said.getvalue().rstrip("\n")


def _by_interrupt(error: BaseException | None) -> bool:
    while error is not None and not isinstance(error, KeyboardInterrupt):
        error = error.__cause__ or error.__context__
    return error is not None


def _not_text(words: Sequence[str]) -> str | None:
    """The first word with bytes that are not UTF-8: a file may be called so, but no file of ours can hold them."""
    return next((word for word in words if word != word.encode("utf-8", "ignore").decode("utf-8")), None)


def _system(error: OSError) -> int:
    """What the system refuses, such as a name too long or a full disk, is not a bug of ours."""
    try:
        sys.stdout.flush()
    except OSError:
        silence(sys.stdout)
    if isinstance(error, BrokenPipeError):
        return DONE
    reason = error.strerror or type(error).__name__
    named = f": {str(error.filename)[:LONGEST_NAME]}" if error.filename is not None else ""
    note(f"[system] the system refused: {reason}{named}; check the path, its permissions and the space left")
    return REFUSED


def _bug() -> int:
    import traceback

    note(traceback.format_exc().rstrip())
    note(
        f"this is a bug in jumpblock {planner.__version__}, not a fault in your files; nothing was written. "
        "Please report the lines above with the command you gave."
    )
    return BUG
