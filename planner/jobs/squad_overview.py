"""A row for each athlete of a squad: gap, what is short, this week's work, pain."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal, get_args

from planner.cards.wide_table import WideTable, draw_tables
from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.gap_record import Gap
from planner.estimate.belief import Verdict, interval
from planner.files.cells import CellValue
from planner.files.workbook import WrittenColumn, csv_bytes, workbook_bytes
from planner.jobs.outcome_of_block import outcome_of
from planner.jobs.plan_one import short_of
from planner.jobs.sources import Wanted, read_sources
from planner.jobs.squad_blocks import SquadBlocks
from planner.jobs.squad_changes import LINE, change_pages
from planner.jobs.squad_files import SquadFiles
from planner.jobs.squad_pain import pain_told
from planner.jobs.trained_block import last_test_day
from planner.prescription.tally import week_tally
from planner.report.outcome_data import verdict_data
from planner.report.squad_text import short_words
from planner.units import UNITS

Column = Literal["athlete", "group", "gap", "short", "week", "contacts", "sets", "sprints", "pain", "change"]
COLUMNS: tuple[Column, ...] = get_args(Column)
_FALLING: tuple[Column, ...] = ("gap", "short", "contacts", "sets", "sprints", "pain", "change")  # the most comes first
HEADS = (
    "athlete",
    "group",
    "gap (N)",
    "error (N)",
    "gap ({unit})",
    "short of",
    "week",
    "contacts",
    "sets",
    "sprints",
    "pain",
)
_SHARES = (0.15, 0.08, 0.07, 0.07, 0.07, 0.24, 0.05, 0.08, 0.06, 0.06, 0.07)
CHANGE_HEADS = ("change ({unit})", "90 % from", "to")  # only where a block has an outcome
_CHANGE_SHARES = (0.12, 0.06, 0.06, 0.07, 0.065, 0.165, 0.045, 0.07, 0.045, 0.055, 0.045, 0.085, 0.07, 0.045)
_SAYS = (
    "Week of {date:%A} {date.day} {date:%B %Y}. Gap: from the last test to the target; error: one standard error. "
    "Contacts, sets and sprints: of the plan.",
    "Pain: 0 to 10, the most of any joint in the last seven days logged and in the athlete's file.",
)
_CHANGE_SAYS = " Change: of the target jump by the retest, with the ends of its 90 % line."


@dataclass(frozen=True)
class OverviewRow:
    """``week`` and what it holds: None without a block, or before and after it. ``pain``: None where none is told.

    ``change``: of the target jump by the retest after the block, in metres; None without one. ``length_unit``: of the
    athlete's file.
    """

    athlete: str
    name: str
    group: str
    gap_N: float
    gap_N_se: float
    gap_cm: float
    length_unit: Literal["cm", "in"]
    short_percent: dict[str, int]
    week: int | None
    contacts: int | None
    sets: int | None
    sprints: int | None
    pain: int | None
    change: Verdict | None = None

    def cells(self, unit: Literal["cm", "in"]) -> list[CellValue]:
        short = short_words({"short_percent": self.short_percent})
        gap = (round(self.gap_N), round(self.gap_N_se), round(self.gap_cm / 100 / UNITS["length"][unit], 1))
        return [self.name, self.group, *gap, short, self.week, self.contacts, self.sets, self.sprints, self.pain]

    @property
    def data(self) -> dict[str, Any]:
        return {**vars(self), "change": None if self.change is None else verdict_data(self.change)}

    def change_cells(self, unit: Literal["cm", "in"]) -> list[CellValue]:
        """What is to be believed, with the ends of its line."""
        if self.change is None:
            return [None, None, None]
        ends = (self.change.believed.value, *interval(self.change.believed, LINE))
        return [round(end / UNITS["length"][unit], 1) for end in ends]


def unit_of(rows: Sequence[OverviewRow]) -> Literal["cm", "in"]:
    """Inches where all files are written in them; one column has one unit, so that rows can be compared."""
    return "in" if rows and all(row.length_unit == "in" for row in rows) else "cm"


def overview_rows(
    squad: SquadFiles,
    blocks: SquadBlocks,
    date: datetime.date,
    sort: Column,
    tell: Callable[[list[Finding]], None] = lambda findings: None,
) -> list[OverviewRow]:
    """Sorted by a column, then by name. UserError with every athlete's findings where a file cannot be read.

    ``tell`` gets what keeps a retest from being compared.
    """
    rows, findings = [], list[Finding]()
    for name, path in squad.athletes.items():
        try:
            sources = read_sources(Wanted(path))
            gap = sources.estimate().gap
        except UserError as refusal:
            findings += refusal.findings
            continue
        group = next((one.name for one in squad.squad.groups if name in one.athletes), "")
        athlete = sources.inputs.athlete
        row = _row(name, athlete, gap, group, blocks.blocks.get(name), date)
        week_end = date + datetime.timedelta(days=6 - date.weekday())
        pain = pain_told(athlete, blocks.blocks.get(name), blocks.paths.get(name), week_end)
        rows.append(replace(row, pain=pain, change=_change(name, athlete, blocks, tell)))
    if findings:
        raise UserError(findings)
    return sorted(rows, key=lambda row: _sorted_by(row, sort))


def _row(name: str, athlete: Athlete, gap: Gap, group: str, block: Block | None, date: datetime.date) -> OverviewRow:
    week = next((one for one in reversed(block.weeks) if one.start <= date), None) if block else None
    if week is not None and date >= week.start + datetime.timedelta(days=7):
        week = None
    done = week_tally(week) if week is not None else None
    return OverviewRow(
        name,
        athlete.name,
        group,
        gap.gap.mean_ground_force_N,
        gap.gap.mean_ground_force_N_se,
        100 * gap.gap.rise_m,
        athlete.print_as.length,
        short_of(gap),
        week.number if week else None,
        done.all_contacts if done else None,
        done.working_sets if done else None,
        done.sprint_efforts if done else None,
        None,
    )


def _change(name: str, athlete: Athlete, blocks: SquadBlocks, tell: Callable[[list[Finding]], None]) -> Verdict | None:
    """By the retest and the log, where the athlete was tested on or after the block's test day."""
    block = blocks.blocks.get(name)
    if block is None or all(test.date < last_test_day(block) for test in athlete.tests):
        return None
    try:
        return outcome_of(blocks.paths[name].as_posix()).verdict
    except UserError as refusal:
        tell([replace(one, level="warning") for one in refusal.findings])
        return None


def _sorted_by(row: OverviewRow, sort: Column) -> tuple[Any, str]:
    values: dict[Column, Any] = {
        "athlete": row.name,
        "group": row.group,
        "gap": row.gap_N,
        "short": max(row.short_percent.values(), default=0),
        "week": row.week or 0,
        "contacts": row.contacts or 0,
        "sets": row.sets or 0,
        "sprints": row.sprints or 0,
        "pain": row.pain or 0,
        "change": row.change.believed.value if row.change else -math.inf,
    }
    return (-values[sort] if sort in _FALLING else values[sort], row.name)


def overview_table(squad: SquadFiles, rows: Sequence[OverviewRow], date: datetime.date) -> WideTable:
    heads, cells = _table(rows)
    with_change = len(heads) > len(HEADS)
    subtitle = "\n".join(_SAYS).format(date=date) + (_CHANGE_SAYS if with_change else "")
    texts = [["" if value is None else str(value) for value in row] for row in cells]
    return WideTable(squad.squad.name, subtitle, heads, _CHANGE_SHARES if with_change else _SHARES, texts)


def _table(rows: Sequence[OverviewRow]) -> tuple[Sequence[str], list[list[CellValue]]]:
    unit = unit_of(rows)
    with_change = any(row.change is not None for row in rows)
    heads = [head.format(unit=unit) for head in (*HEADS, *(CHANGE_HEADS if with_change else ()))]
    return heads, [[*row.cells(unit), *(row.change_cells(unit) if with_change else ())] for row in rows]


def overview_file(squad: SquadFiles, rows: Sequence[OverviewRow], date: datetime.date, path: str, paper: str) -> bytes:
    """As the name of the file ends: .pdf, .csv or .xlsx."""
    ending = Path(path).suffix.lower()
    heads, cells = _table(rows)
    if ending == ".pdf":
        pictures = change_pages(squad.squad.name, {row.name: row.change for row in rows if row.change}, unit_of(rows))
        return draw_tables([overview_table(squad, rows, date)], paper=paper, pictures=pictures)
    if ending == ".csv":
        return csv_bytes(heads, cells)
    if ending == ".xlsx":
        return workbook_bytes("Overview", [WrittenColumn(head) for head in heads], cells)
    message, hint = f"an overview cannot be written as '{ending}'", "end the name in .pdf, .csv or .xlsx"
    raise UserError([Finding(path, 0, 0, "unknown-ending", message, hint)])
