"""Samples a second, and where samples are missing: from the times, a line above the rows, or the command line."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from itertools import pairwise

from planner.domain.findings import Finding, UserError
from planner.force_platform.reading.column_names import ColumnName
from planner.force_platform.reading.text_table import TextTable, refused
from planner.units import UNITS, counted

HIGHEST_RATE_Hz = 50_000.0
RATES_DIFFER_OVER = 0.02
_RATE_LINE = re.compile(
    r"(?:rate|frequen|freq|frequenz|hz)\D{0,30}?(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?)\s*hz", re.IGNORECASE
)


@dataclass(frozen=True)
class SampleRate:
    """``gaps``: (row before which samples are missing, how many). ``stated``: nothing in the rows proves the rate."""

    rate_Hz: float
    stated: bool
    gaps: tuple[tuple[int, int], ...] = ()
    choices: tuple[str, ...] = ()
    doubts: tuple[Finding, ...] = field(default=())


def sample_rate(
    times: list[float] | None, column: ColumnName | None, table: TextTable, rate_Hz: float | None, path: str
) -> SampleRate:
    """``rate_Hz``: as the command line states it. Raises UserError where the rate is not known, or contradicted."""
    if times is None or column is None:
        return _stated(table, rate_Hz, path)
    step, gaps = _steps(times, column, table, path)
    unit = column.unit or ("s" if step < 0.5 else None)
    if unit not in UNITS["time"]:
        return _without_unit(step, gaps, rate_Hz, path)
    by_times_Hz = _plain(1.0 / (step * UNITS["time"][unit]))
    if by_times_Hz > HIGHEST_RATE_Hz:
        message = f"the time column goes at {by_times_Hz:,.0f} samples a second, in steps of {step:g} {unit}"
        raise refused(path, "rate-high", message, "check the unit of time in its heading")
    if rate_Hz and abs(rate_Hz / by_times_Hz - 1.0) > RATES_DIFFER_OVER:
        message = f"the time column goes at {by_times_Hz:.6g} a second, --rate says {rate_Hz:g}"
        raise refused(path, "rate-differs", message, "leave out --rate, or check the time column (--time NAME)")
    return SampleRate(by_times_Hz, stated=False, gaps=tuple(gaps))


def _stated(table: TextTable, rate_Hz: float | None, path: str) -> SampleRate:
    """From --rate, else from the lines above the rows; said where both speak and differ."""
    found = [float(match.group(1) or match.group(2)) for line in table.preamble if (match := _RATE_LINE.search(line))]
    in_file = sorted({one for one in found if 1 <= one <= HIGHEST_RATE_Hz})
    if rate_Hz:
        differs = [one for one in in_file if abs(rate_Hz / one - 1.0) > RATES_DIFFER_OVER]
        doubts: tuple[Finding, ...] = ()
        if differs and len(differs) == len(in_file):
            message = f"--rate says {rate_Hz:g} samples a second, a line above the rows {differs[0]:g}: --rate is taken"
            doubts = (Finding(path, 0, 0, "rate-differs", message, "leave out --rate to take the file's", "warning"),)
        return SampleRate(rate_Hz, stated=True, doubts=doubts)
    if len(in_file) > 1:
        rates = " and ".join(f"{one:g}" for one in in_file)
        message = f"the lines above the rows name {rates} samples a second"
        raise refused(path, "which-rate", message, "say which with --rate")
    if not in_file:
        message = "the file has no time column and no stated rate"
        hint = "give the samples a second, such as --rate 1000; or name the time column with --time"
        raise refused(path, "no-rate", message, hint)
    return SampleRate(
        in_file[0], stated=True, choices=(f"{in_file[0]:g} samples a second, from a line above the rows",)
    )


def _without_unit(step: float, gaps: list[tuple[int, int]], rate_Hz: float | None, path: str) -> SampleRate:
    """Times in whole steps: milliseconds, or numbers of samples; only --rate can tell."""
    if rate_Hz:
        said = f"the time column has no unit and goes in steps of {step:g}: --rate is taken"
        return SampleRate(rate_Hz, stated=True, gaps=tuple(gaps), choices=(said,))
    message = f"the time column goes in steps of {step:g} without a unit"
    hint = "name its unit in the heading, such as Time[ms], or give the samples a second with --rate"
    raise refused(path, "no-time-unit", message, hint)


def _plain(rate_Hz: float) -> float:
    """A rate that is a whole number but for the rounding of the times, as that number."""
    return float(round(rate_Hz)) if abs(rate_Hz - round(rate_Hz)) < 1e-4 * rate_Hz else rate_Hz


def _steps(times: list[float], column: ColumnName, table: TextTable, path: str) -> tuple[float, list[tuple[int, int]]]:
    known = [(row, value) for row, value in enumerate(times) if not math.isnan(value)]
    if len(known) < 3:
        raise refused(path, "too-short", f"the record has {counted(len(times), 'sample')}", "export the whole jump")
    for (_, earlier), (row, later) in pairwise(known):
        if later < earlier:
            message = f"the time {later:g} is before {earlier:g}"
            raise UserError([Finding(path, table.rows[row][0], 0, "time-goes-back", message, "export it anew")])
    diffs = sorted((b - a) / (rb - ra) for (ra, a), (rb, b) in pairwise(known))
    middle = diffs[len(diffs) // 10 : max(len(diffs) * 9 // 10, len(diffs) // 10 + 1)]
    step = sum(middle) / len(middle)
    if step <= 0:
        raise refused(
            path, "time-stands", "the time column does not move on", "check which column is the time: --time NAME"
        )
    written = table.rows[0][1][column.index].replace(",", ".").partition(".")[2]
    rounding = 10.0 ** -len(written.partition("e")[0]) if "e" not in written.lower() else 0.0
    gaps = []
    for (_, earlier), (row, later) in pairwise(known):
        missing = round((later - earlier) / step) - 1
        if later - earlier > 1.5 * step + rounding and missing > 0:
            gaps.append((row, missing))
    lost = sum(missing for _, missing in gaps)
    if lost > len(times):
        raise refused(path, "missing-samples", f"{lost} of {lost + len(times)} samples are missing", "export it anew")
    return step, gaps
