"""``jumpblock platform``: jumps on a force platform."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import click

from planner.cli.output import Command, note, result, show_findings, to_json
from planner.cli.values import DAY

if TYPE_CHECKING:
    import datetime

    from planner.domain.benchmarks import Benchmarks
    from planner.domain.findings import Finding
    from planner.estimate.words import Words
    from planner.files.add_test import AthleteFile
    from planner.force_platform.platform_jump import PlatformJump
    from planner.force_platform.reading.record_file import RecordOptions


@click.command("platform", cls=Command, short_help="Read jumps from force-platform records.")
@click.argument("records", metavar="RECORD...", nargs=-1, required=True, type=click.Path())
@click.option(
    "--jump",
    metavar="KIND",
    type=click.Choice(["auto", "countermovement", "squat", "drop"]),
    default="auto",
    help="Its kind.",
)
@click.option("--number", type=click.IntRange(min=1), help="Which jump, where a record holds several.")
@click.option("--all", "take_all", is_flag=True, help="Every jump of each record.")
@click.option("--rate", type=click.FloatRange(min=1), help="Samples a second, where the record does not say.")
@click.option("--unit", type=click.Choice(["N", "kN", "lbf"]), help="Unit of force [default: the record's, else N].")
@click.option("--time", metavar="COLUMN", help="Name or number of the time column.")
@click.option("--force", metavar="COLUMN", help="Name or number of the vertical force.")
@click.option("--left", metavar="COLUMN", help="Vertical force of the left platform; with --right.")
@click.option("--right", metavar="COLUMN", help="Vertical force of the right platform; with --left.")
@click.option("--body-mass", metavar="MASS", help="Such as 71.4 kg: a drop jump's, or to hold the weighing against.")
@click.option("--into", "athlete", metavar="ATHLETE", type=click.Path(), help="Add the test to this athlete's file.")
@click.option("--date", type=DAY, help="Day of the test; needed with --into.")
@click.option(
    "--take-off", type=click.Choice(["two-leg", "one-leg left", "one-leg right"]), default="two-leg", help="For --into."
)
@click.option("--arms", type=click.Choice(["hips", "free"]), default="hips", help="Hands on hips, or arms free.")
@click.option("--drop", metavar="HEIGHT", help="Height of the box, such as 30 cm: for drop jumps with --into.")
@click.option("-o", "--output", metavar="TRACE.pdf", type=click.Path(), help="One page a jump: the force trace.")
@click.option("--json", "as_json", is_flag=True, help="Print the figures as data.")
@click.option("--templates", type=click.Path(), help="Folder of benchmarks [default: near the first RECORD].")
def command(records: tuple[str, ...], output: str | None, as_json: bool, athlete: str | None, **said: Any) -> None:
    """Read jumps from force-platform records (text columns: CSV or TSV).

    Prints height by impulse and by flight time with their errors, the phases, forces and power, and what is wrong with
    the record. All records are trials of one test.
    """
    from planner.estimate.words import Words, words_of
    from planner.files.add_test import AthleteFile
    from planner.jobs.safe_output import pdf_output

    _refuse_half_said(said, athlete)
    benchmarks = _benchmarks(athlete or records[0], said["templates"])
    target = pdf_output(output) if output else None
    file = AthleteFile(athlete) if athlete else None
    jumps = [(path, jump) for path in records for jump in _analysed(path, benchmarks, said, file)]
    # Everything is made before anything is written, and the athlete's file comes last: a refusal leaves no half.
    added = _added(file, [jump for _, jump in jumps], said, benchmarks.platform.mass_differs_over) if file else None
    words = words_of(file.athlete) if file else Words()
    picture = _picture(jumps, words) if target else b""
    texts = _texts(jumps, as_json, benchmarks, words)
    if target is not None:
        target.write(picture)
        note(f"Written: {output}")
    if file is not None and added is not None:
        file.write(added.content)
        note(added.told)
    if not as_json:
        note("")
    for text in texts:
        result(text)


def _refuse_half_said(said: dict[str, Any], athlete: str | None) -> None:
    if (said["left"] is None) != (said["right"] is None):
        raise click.UsageError("--left and --right go together")
    if athlete is not None and said["date"] is None:
        raise click.UsageError("--into needs --date YEAR-MONTH-DAY: the day of the test")


def _benchmarks(near: str, templates: str | None) -> Benchmarks:
    from planner.files.load import load_benchmarks
    from planner.files.locate import locate_benchmarks

    at = locate_benchmarks(near=near, templates=templates)
    note(f"benchmarks: {at.display} ({at.how})")
    return load_benchmarks(at.path, at.display).require()


def _options(said: dict[str, Any]) -> RecordOptions:
    from planner.force_platform.reading.record_columns import ColumnWishes
    from planner.force_platform.reading.record_file import RecordOptions

    sides = (said["left"], said["right"]) if said["left"] is not None else None
    return RecordOptions(said["rate"], said["unit"], ColumnWishes(said["time"], said["force"], sides))


def _analysed(path: str, benchmarks: Benchmarks, said: dict[str, Any], file: AthleteFile | None) -> list[PlatformJump]:
    """The jumps of one record; its warnings are shown, its errors raised, both under the record's name."""
    from dataclasses import replace
    from pathlib import Path

    from planner.domain.findings import UserError
    from planner.estimate.notebook import Notebook
    from planner.estimate.words import Words, words_of
    from planner.files.load import read_bytes
    from planner.force_platform.analyse import analyse
    from planner.force_platform.jump_case import Options
    from planner.force_platform.reading.record_file import read_record

    raw, findings = read_bytes(Path(path), path)
    if raw is None:
        raise UserError(findings)
    record = read_record(raw, path, _options(said))
    words = words_of(file.athlete) if file else Words()
    for remark in record.remarks:
        note(f"{path}: {remark}")
    show_findings([_measured(finding, words) for finding in record.doubts])
    mass = _quantity(said["body_mass"], "mass", "--body-mass")
    if mass is None and file is not None:
        mass = file.athlete.body_mass if said["jump"] == "drop" else None
    notes = Notebook()
    try:
        jumps = analyse(
            record, benchmarks.platform, Options(said["jump"], said["number"], said["take_all"], mass), notes
        )
    except UserError as error:
        raise UserError([_measured(replace(one, path=path), words) for one in error.findings]) from error
    show_findings([_measured(replace(finding, path=path), words) for finding in notes.findings])
    return jumps


def _measured(finding: Finding, words: Words) -> Finding:
    from dataclasses import replace

    from planner.estimate.words import as_measured_by

    told = (as_measured_by(text, words) for text in (finding.message, finding.hint or ""))
    message, hint = told
    return replace(finding, message=message, hint=hint or finding.hint)


def _quantity(text: str | None, dimension: Any, option: str) -> float | None:
    from planner.units import QuantityError, parse_quantity

    if text is None:
        return None
    try:
        value = parse_quantity(text, dimension)
    except QuantityError as error:
        raise click.UsageError(f"{option}: {error}") from error
    low, high = (25.0, 250.0) if dimension == "mass" else (0.05, 1.2)
    if not low <= value <= high:
        raise click.UsageError(
            f"{option}: {text} is outside {low:g} to {high:g} {'kg' if dimension == 'mass' else 'm'}"
        )
    return value


class _Added(NamedTuple):
    content: bytes
    told: str


def _added(file: AthleteFile, jumps: list[PlatformJump], said: dict[str, Any], mass_differs_over: float) -> _Added:
    """The athlete's file with the test in it, not yet written. Raises UserError where it cannot be added."""
    from planner.domain.findings import Finding, UserError
    from planner.estimate.words import as_measured_by, words_of
    from planner.force_platform.athlete_entry import body_mass_differs, platform_test
    from planner.units import counted

    believed = [jump for jump in jumps if jump.verdict.believed != "neither"]
    if not believed:
        message = "nothing is added: neither height of these jumps is believed"
        why = as_measured_by(jumps[0].verdict.why, words_of(file.athlete))
        raise UserError([Finding(file.path, 0, 0, "nothing-believed", message, why)])
    if len(believed) < len(jumps):
        note(f"left out, since neither height is believed: {len(jumps) - len(believed)} of {len(jumps)} jumps")
    jumps = believed
    kinds = sorted({jump.kind for jump in jumps})
    if len(kinds) > 1:
        message = f"the records hold jumps of several kinds ({', '.join(kinds)}); a test holds one kind"
        raise UserError([Finding("", 0, 0, "several-kinds", message, "add them one kind at a time, with --jump")])
    day: datetime.date = said["date"]
    words = words_of(file.athlete)
    drop_m = _quantity(said["drop"], "length", "--drop") if kinds == ["drop"] else None
    entry = platform_test(jumps, date=day, take_off=said["take_off"], arms=said["arms"], drop_m=drop_m, words=words)
    if kinds == ["drop"] and drop_m is None:
        note("no --drop: without the height of the box the test is kept, but fast force is not read from it")
    if file.has_same(entry):
        message = f"a force-platform test of this jump on {day.isoformat()} is in the file already"
        raise UserError([Finding(file.path, 0, 0, "test-twice", message, "delete it first, or give the other day")])
    differs = body_mass_differs(jumps, file.athlete.body_mass, mass_differs_over, words)
    if differs is not None:
        show_findings([Finding(file.path, 0, 0, "body-mass-differs", *differs, level="warning")])
    told = f"added to {file.path}: force-platform test of {day.isoformat()}, {counted(len(jumps), 'trial')}"
    return _Added(file.with_tests([entry]), told)


def _picture(jumps: list[tuple[str, PlatformJump]], words: Words) -> bytes:
    from pathlib import Path

    from planner.cards.force_trace import draw_trace
    from planner.report.platform_text import picture_lines

    titles = [Path(path).name for path, _ in jumps]
    chosen = [jump for _, jump in jumps]
    return draw_trace(chosen, titles=titles, lines=[picture_lines(jump, words) for jump in chosen])


def _texts(jumps: list[tuple[str, PlatformJump]], as_json: bool, benchmarks: Benchmarks, words: Words) -> list[str]:
    from planner.report.platform_text import platform_json, platform_text, trials_text

    if as_json:
        return [to_json([platform_json(jump, path) for path, jump in jumps])]
    texts = [platform_text(jump, path, words) + ("\n" if len(jumps) > 1 else "") for path, jump in jumps]
    if len(jumps) > 1 and len({jump.kind for _, jump in jumps}) == 1:
        texts.append(trials_text([jump for _, jump in jumps], benchmarks, words))
    return texts
