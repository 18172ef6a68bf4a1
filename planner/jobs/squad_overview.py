"""A row for each athlete of a squad: gap, what is short, this week's work, pain."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal, get_args

from planner.cards.wide_table import WideTable, draw_tables
from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.findings import Finding, UserError
from planner.domain.gap_record import Gap
from planner.files.workbook import Value, WrittenColumn, csv_bytes, workbook_bytes
from planner.jobs.plan_one import short_of
from planner.jobs.sources import Wanted, read_sources
from planner.jobs.squad_blocks import SquadBlocks
from planner.jobs.squad_files import SquadFiles
from planner.prescription.tally import week_tally
from planner.report.squad_text import short_words

Column = Literal["athlete", "group", "gap", "short", "week", "contacts", "sets", "sprints", "pain"]
COLUMNS: tuple[Column, ...] = get_args(Column)
_FALLING: tuple[Column, ...] = ("gap", "short", "contacts", "sets", "sprints", "pain")  # the most comes first
HEADS = (
    "athlete",
    "group",
    "gap (N)",
    "error (N)",
    "gap (cm)",
    "short of",
    "week",
    "contacts",
    "sets",
    "sprints",
    "pain",
)
_SHARES = (0.15, 0.08, 0.07, 0.07, 0.07, 0.24, 0.05, 0.08, 0.06, 0.06, 0.07)


@dataclass(frozen=True)
class OverviewRow:
    """``week`` and what it holds: None without a block, or before and after it. ``pain``: the most of any joint now."""

    athlete: str
    name: str
    group: str
    gap_N: float
    gap_N_se: float
    gap_cm: float
    short_percent: dict[str, int]
    week: int | None
    contacts: int | None
    sets: int | None
    sprints: int | None
    pain: int

    @property
    def cells(self) -> list[Value]:
        short = short_words({"short_percent": self.short_percent})
        gap = (round(self.gap_N), round(self.gap_N_se), round(self.gap_cm, 1))
        return [self.name, self.group, *gap, short, self.week, self.contacts, self.sets, self.sprints, self.pain]

    @property
    def data(self) -> dict[str, Any]:
        return dict(vars(self))


def overview_rows(squad: SquadFiles, blocks: SquadBlocks, date: datetime.date, sort: Column) -> list[OverviewRow]:
    """Sorted by a column, then by name. UserError with every athlete's findings where a file cannot be read."""
    rows, findings = [], list[Finding]()
    for name, path in squad.athletes.items():
        try:
            sources = read_sources(Wanted(path))
            gap = sources.estimate().gap
        except UserError as refusal:
            findings += refusal.findings
            continue
        group = next((one.name for one in squad.squad.groups if name in one.athletes), "")
        rows.append(_row(name, sources.inputs.athlete, gap, group, blocks.blocks.get(name), date))
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
        short_of(gap),
        week.number if week else None,
        done.all_contacts if done else None,
        done.working_sets if done else None,
        done.sprint_efforts if done else None,
        max((joint.pain for joint in athlete.joints), default=0),
    )


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
        "pain": row.pain,
    }
    return (-values[sort] if sort in _FALLING else values[sort], row.name)


def overview_table(squad: SquadFiles, rows: Sequence[OverviewRow], date: datetime.date) -> WideTable:
    subtitle = (
        f"Week of {date:%A} {date.day} {date:%B %Y}. Gap: mean ground force to the target, with one standard error."
    )
    cells = [["" if value is None else str(value) for value in row.cells] for row in rows]
    return WideTable(squad.squad.name, subtitle, HEADS, _SHARES, cells)


def overview_file(squad: SquadFiles, rows: Sequence[OverviewRow], date: datetime.date, path: str, paper: str) -> bytes:
    """As the name of the file ends: .pdf, .csv or .xlsx."""
    ending = Path(path).suffix.lower()
    cells = [row.cells for row in rows]
    if ending == ".pdf":
        return draw_tables([overview_table(squad, rows, date)], paper=paper)
    if ending == ".csv":
        return csv_bytes(HEADS, cells)
    if ending == ".xlsx":
        return workbook_bytes("Overview", [WrittenColumn(head) for head in HEADS], cells)
    message, hint = f"'{ending}' is no kind of overview", "end the name in .pdf, .csv or .xlsx"
    raise UserError([Finding(path, 0, 0, "unknown-ending", message, hint)])
