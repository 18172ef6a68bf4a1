"""``jumpblock log``: what was done comes back into the tool."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

import click

from planner.cli.completing import sessions
from planner.cli.output import Command, note, result, show_findings
from planner.cli.terminal_questions import ask, at_terminal
from planner.cli.values import DAY
from planner.domain.findings import UserError

if TYPE_CHECKING:
    from planner.domain.block import Session
    from planner.domain.training_log import LoggedSession
    from planner.jobs.ask_for_session import Dialogue
    from planner.jobs.log_block import OpenLog, Told

_WHY = ("ill", "pain", "match", "travel", "other")
_WRITTEN = ("same-day", "next-day", "later")
_MORNING = "the next morning's pain was added to it"


@click.command("log", cls=Command, short_help="Write down what was done in a session.")
@click.argument("block", type=click.Path())
@click.argument("session", required=False, shell_complete=sessions)
@click.option("--as-planned", is_flag=True, help="Done as planned; items given with --item were measured.")
@click.option("--missed", metavar="WHY", type=click.Choice(_WHY), help="Missed, and why.")
@click.option("--effort", type=click.IntRange(0, 10), help="How hard the whole session was.")
@click.option("--minutes", type=click.IntRange(0, 600), help="Minutes that it took.")
@click.option(
    "--item",
    "items",
    nargs=2,
    multiple=True,
    metavar="NUMBER SETS",
    help="An item of the card that differed or was measured; may be given more than once.",
)
@click.option("--pain", multiple=True, metavar="WHERE", help='Joint with before, worst: "left knee 1 3".')
@click.option(
    "--next-morning",
    multiple=True,
    metavar="WHERE",
    help='Pain the morning after the session before: "left knee 2".',
)
@click.option("--body-mass", metavar="MASS", help="Body mass of the day, with its unit.")
@click.option("--note", "remark", help="A remark.")
@click.option("--date", type=DAY, help="The day it was done [default: the planned day].")
@click.option(
    "--written", metavar="WHEN", type=click.Choice(_WRITTEN), help="When effort and minutes were written down."
)
@click.option(
    "--from",
    "sources",
    multiple=True,
    metavar="FILE",
    type=click.Path(),
    help="A spreadsheet of sets (.csv, .xlsx), or notes of the form jb1 … end (also a whole chat); may be given more "
    "than once.",
)
@click.option("--log", "log_file", metavar="LOG", type=click.Path(), help="The log [default: BLOCK-log.yaml].")
@click.option("--today", type=DAY, help="Today, for what is asked on a terminal [default: this machine's date].")
@click.option("--dry-run", is_flag=True, help="Show what would be written, write nothing.")
def command(
    block: str,
    session: str | None,
    as_planned: bool,
    missed: str | None,
    effort: int | None,
    minutes: int | None,
    items: tuple[tuple[str, str], ...],
    pain: tuple[str, ...],
    next_morning: tuple[str, ...],
    body_mass: str | None,
    remark: str | None,
    date: datetime.date | None,
    written: str | None,
    sources: tuple[str, ...],
    log_file: str | None,
    today: datetime.date | None,
    dry_run: bool,
) -> None:
    """Write down what was done in a SESSION of BLOCK; without one, in the next that has no entry.

    Answer the questions on a terminal, or give it all here. The log is BLOCK-log.yaml next to the block, a text file
    to read and edit, of up to 1 MiB; an entry given again replaces the one of its session.

    \b
    jumpblock log ana-block.yaml    asks for the next session
    jumpblock log ana-block.yaml w3s1 --as-planned \\
        --effort 7 --minutes 62
    jumpblock log ana-block.yaml w3s1 --pain "left knee 1 3" \\
        --item 6 "110 kg x 6, 6, 5; 2 left"
    jumpblock log ana-block.yaml w3s2 --missed ill
    jumpblock log ana-block.yaml --next-morning "left knee 2"

    \b
    Of an item:
    110 kg x 6, 6, 5; 2 left   load, reps of each set, how
                               many were left after the first
    20 lb each hand x 8        two dumbbells; also 20 + 20 lb,
                               or both together: 40 lb x 8
    2 sets; why landings got loud
    none                       left out
    3.10 m, 3.12 m             touches
    front-squat: 90 kg x 6     another movement
    """
    from planner.jobs.log_block import Told, open_log

    told = Told(
        date=date,
        written=written or "same-day",  # type: ignore[arg-type]  # one of the words just checked
        as_planned=as_planned,
        missed=missed,  # type: ignore[arg-type]
        effort=effort,
        minutes=minutes,
        items=items,
        pain=pain,
        body_mass=body_mass,
        note=remark,
    )
    _agree(told, session, bool(sources), bool(next_morning))
    opened = open_log(block, log_file)
    if sources:
        _from_files(opened, sources)
    elif not told.is_empty or next_morning:
        _by_options(opened, session, told, next_morning)
    elif not at_terminal():
        raise click.UsageError("say what was done, such as --as-planned --effort 7 (or run this on a terminal)")
    else:
        _by_asking(opened, _session(opened, session), today or datetime.date.today(), dry_run)
    _finish(opened, dry_run)


def _agree(told: Told, session: str | None, from_files: bool, next_morning: bool) -> None:
    if from_files and (session or next_morning or not told.is_empty):
        raise click.UsageError("--from reads everything from its files: give no SESSION and no other entry with it")
    done = told.as_planned or told.items or told.effort is not None or told.minutes is not None
    if told.missed and done:
        raise click.UsageError("--missed cannot go with --as-planned, --item, --effort or --minutes")


def _session(opened: OpenLog, name: str | None) -> Session:
    if name is not None:
        return opened.session(name)
    found = opened.next_session()
    if found is None:
        raise click.UsageError("every session has an entry; name one to write it again")
    return found


def _from_files(opened: OpenLog, sources: tuple[str, ...]) -> None:
    from planner.jobs.log_from_files import entries_from

    for source in sources:
        for entry in entries_from(source, opened):
            _put(opened, entry)


def _by_options(opened: OpenLog, name: str | None, told: Told, next_morning: tuple[str, ...]) -> None:
    from planner.files.typed_sets import read_pain
    from planner.jobs.log_block import entry_of, typed, with_morning

    session = _session(opened, name) if name is not None or not told.is_empty else None
    if next_morning:
        own = session if told.is_empty else None  # named alone, it is the session whose next morning this is
        before = opened.file.log.entry(own.id) if own else opened.done_before(session)
        if before is None:
            raise click.UsageError(_no_morning(opened, session, own is not None))
        for text in next_morning:
            pain = typed("--next-morning", lambda said: read_pain(said, morning=True), text)
            before = with_morning(before, pain)
        _put(opened, before, _MORNING)
    if session is not None and not told.is_empty:
        entry = entry_of(session, told, opened)
        _put(opened, entry)
        _say_blank(opened, session, entry)


def _say_blank(opened: OpenLog, session: Session, entry: LoggedSession) -> None:
    """One note of the loads that the card leaves to be found and that nobody told."""
    from planner.jobs.log_block import loads_not_told
    from planner.jobs.print_block import layout_near

    numbers = loads_not_told(session, entry, layout_near(opened.block_path))
    if numbers:
        names = ", ".join(f"{number} {session.items[number - 1].name}" for number in numbers)
        note(f"  no load was given for {names}, and the next cards need it: give it with --item {numbers[0]}")


def _no_morning(opened: OpenLog, session: Session | None, is_own: bool) -> str:
    last = opened.done_before(None)
    if session is None or last is None:
        return "no session is logged yet, so there is no next morning to record"
    if not is_own:
        return f"no session is logged before {session.id}, so there is no next morning to record"
    return f"{session.id} is not logged, so it has no next morning; the last logged session is {last.session}"


def _by_asking(opened: OpenLog, session: Session, today: datetime.date, dry_run: bool) -> None:
    """Ask; where that is cut short, keep what was answered as an unfinished entry."""
    from planner.jobs.ask_for_session import Dialogue
    from planner.jobs.print_block import layout_near

    note("Enter takes what is in brackets; Ctrl-C keeps what was answered and leaves.")
    dialogue = Dialogue(opened, session, layout_near(opened.block_path), ask, note, today)
    try:
        before = opened.done_before(session)
        if before and (told := dialogue.with_mornings(before)) != before:
            _put(opened, told, _MORNING)
        dialogue.entry = dialogue.finished()
        _put(opened, dialogue.entry)
    except (click.Abort, KeyboardInterrupt, EOFError):
        try:
            _keep(opened, dialogue, dry_run)
        except UserError:
            _say_again(opened, dialogue)
            raise
    except UserError:
        _say_again(opened, dialogue)
        raise


def _say_again(opened: OpenLog, dialogue: Dialogue) -> None:
    """What was typed is not lost by a refusal."""
    from planner.report.log_text import as_command

    words = as_command(str(opened.block_path), dialogue.session, dialogue.entry, opened.block.for_athlete)
    note(f"Nothing was written. To change an answer without giving all of them again:\n  {words}")


def _keep(opened: OpenLog, dialogue: Dialogue, dry_run: bool) -> None:
    if dialogue.has_answers:
        opened.file.put(dialogue.entry)
    if not opened.file.is_changed or dry_run:
        raise click.Abort
    opened.file.write()
    note(f"\ninterrupted; what was answered is in {opened.file.display}")
    note(f"Next: jumpblock log {opened.block_path} {dialogue.session.id} goes on from there")
    raise click.exceptions.Exit(130)


def _put(opened: OpenLog, entry: LoggedSession, added: str = "") -> None:
    """``added``: what was added to an entry that stays as it is otherwise."""
    from planner.report.log_text import entry_lines

    again = not added and opened.file.log.entry(entry.session) is not None
    opened.file.put(entry)
    for line in entry_lines(opened.session(entry.session), entry, opened.block.for_athlete):
        note(line)
    if added or again:
        note(f"  {added}" if added else "  this replaces the earlier entry")


def _finish(opened: OpenLog, dry_run: bool) -> None:
    import shlex

    from planner.jobs.carry_log import revised_since

    show_findings([*opened.file.findings, *revised_since(opened.block_path)])
    if dry_run:
        result(opened.file.diff())
        note("nothing was written (--dry-run)")
        return
    if not opened.file.is_changed:
        note(f"{opened.file.display} already says so; nothing changes")
        return
    opened.file.write()
    note(f"Written: {opened.file.display}")
    coming = opened.next_session()
    if coming is not None:
        note(f"Next: {coming.id}, {coming.date:%a} {coming.date}: jumpblock log {shlex.quote(str(opened.block_path))}")
