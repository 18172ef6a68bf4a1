"""Text columns to force over time: columns, unit and rate found or refused; any bytes end in a record or findings."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.domain.findings import UserError
from planner.force_platform.reading.record_columns import ColumnWishes
from planner.force_platform.reading.record_file import RecordOptions, read_record
from planner.units import POUND_FORCE_N

ROWS = 40


def text(heading, row, rows=ROWS, end="\n"):
    return end.join([heading, *(row(number) for number in range(rows))]).encode("utf-8")


def refused(raw, options=None):
    with pytest.raises(UserError) as caught:
        read_record(raw, "record.csv", options)
    return {finding.code: finding for finding in caught.value.findings}


def test_time_and_force_with_units_in_the_heading():
    record = read_record(text("Time [ms],Force [kN]", lambda n: f"{n},0.7"), "r")
    assert record.rate_Hz == pytest.approx(1000)
    assert record.force_N[0] == pytest.approx(700)
    assert len(record.force_N) == ROWS


@pytest.mark.parametrize("delimiter", ["\t", ";", ",", "   "])
def test_delimiters(delimiter):
    record = read_record(text(delimiter.join(["t", "Fz"]), lambda n: delimiter.join([f"{n / 500:.3f}", "650.5"])), "r")
    assert record.rate_Hz == pytest.approx(500)
    assert record.force_N[-1] == 650.5


def test_decimal_commas_with_semicolons():
    record = read_record(text("Zeit (s);Fz (N)", lambda n: f"{n / 100:.2f};650,5".replace(".", ",")), "r")
    assert record.rate_Hz == pytest.approx(100)
    assert record.force_N[3] == 650.5


def test_rate_from_a_line_above():
    record = read_record(text("# sampling rate: 1200 Hz\nFz", lambda n: "650"), "r")
    assert record.rate_Hz == 1200


def test_no_rate_is_refused_and_an_option_gives_it():
    raw = text("Fz (N)", lambda n: "650")
    assert "no-rate" in refused(raw)
    assert read_record(raw, "r", RecordOptions(rate_Hz=600)).rate_Hz == 600


def test_rate_that_contradicts_the_times_is_refused():
    raw = text("time,force", lambda n: f"{n / 500:.3f},650")
    assert "rate-differs" in refused(raw, RecordOptions(rate_Hz=1000))


def test_rate_that_no_platform_has_is_refused():
    raw = text("time [ms],force", lambda n: f"{n / 1000:.3f},650")
    assert "1,000,000 samples a second" in refused(raw)["rate-high"].message


def test_unit_that_contradicts_the_heading_is_refused():
    raw = text("time [s],force [N]", lambda n: f"{n / 500:.3f},650")
    assert "says lbf" in refused(raw, RecordOptions(unit="lbf"))["unit-differs"].message
    assert read_record(raw, "r", RecordOptions(unit="N")).force_N[0] == 650


def test_time_without_a_unit_in_whole_steps_is_refused():
    assert "no-time-unit" in refused(text("time,force", lambda n: f"{n},650"))


@pytest.mark.parametrize(
    ("heading", "names"),
    [("time,left Fz,right Fz", ("left", "right")), ("t,FzL,FzR", None), ("time,Fz1,Fz2", ("Fz1", "Fz2"))],
)
def test_two_platforms_are_added_up(heading, names):
    record = read_record(text(heading, lambda n: f"{n / 500:.3f},300,350"), "r")
    assert record.force_N[0] == 650
    assert [values[0] for _, values in record.sides] == [300, 350]
    if names:
        assert tuple(name for name, _ in record.sides) == names


def test_columns_by_name_and_by_number():
    raw = text("frame,a,b,c", lambda n: f"{n},300,350,9")
    assert "which-column" in refused(raw, RecordOptions(rate_Hz=100))
    by_name = read_record(raw, "r", RecordOptions(rate_Hz=100, columns=ColumnWishes(sides=("b", "3"))))
    assert by_name.force_N[0] == 700
    assert read_record(raw, "r", RecordOptions(rate_Hz=100, columns=ColumnWishes(force="b"))).force_N[0] == 350
    assert "no-column" in refused(raw, RecordOptions(rate_Hz=100, columns=ColumnWishes(force="z")))


def test_unit_by_option_and_assumed_aloud():
    raw = text("time,force", lambda n: f"{n / 500:.3f},150")
    assert read_record(raw, "r", RecordOptions(unit="lbf")).force_N[0] == pytest.approx(150 * POUND_FORCE_N)
    assert any("newtons" in remark for remark in read_record(raw, "r").remarks)


def test_force_that_points_down_is_turned():
    record = read_record(text("time,force", lambda n: f"{n / 500:.3f},-650"), "r")
    assert record.force_N[0] == 650
    assert any("turned" in remark for remark in record.remarks)


def test_empty_cells_and_jumps_of_time_are_missing_samples():
    lines = ["time,force", *(f"{n / 500:.3f},{'' if n == 7 else 650}" for n in range(60) if n not in (20, 21))]
    record = read_record("\n".join(lines).encode(), "r")
    missing = [place for place, value in enumerate(record.force_N) if math.isnan(value)]
    assert missing == [7, 20, 21]


def test_words_among_the_numbers_are_told_on_their_line():
    raw = text("time,force", lambda n: f"{n / 500:.3f},{'ouch' if n == 4 else 650}")
    finding = refused(raw)["bad-row"]
    assert (finding.line, finding.column) == (6, len("0.008,") + 1)


def test_time_that_goes_back_is_told_on_its_line():
    raw = text("time,force", lambda n: f"{(n if n != 9 else 2) / 500:.3f},650")
    assert refused(raw)["time-goes-back"].line == 11


@given(st.binary(max_size=300))
def test_any_bytes_end_in_a_record_or_findings(raw):
    _ends_well(raw)


cells = st.sampled_from(
    ["1", "2.5", "-3", "0,5", "", "nan", "1e400", "x", "time", "Fz (N)", "Fz [lbf]", "t [ms]", "9e9"]
)


@given(st.lists(st.lists(cells, max_size=4), max_size=12), st.sampled_from(["\t", ";", ",", " "]))
def test_any_table_ends_in_a_record_or_findings(rows, delimiter):
    _ends_well("\n".join(delimiter.join(row) for row in rows).encode())


def _ends_well(raw):
    for options in (None, RecordOptions(rate_Hz=500)):
        try:
            record = read_record(raw, "r", options)
        except UserError as error:
            assert error.findings
        else:
            assert record.rate_Hz > 0
            assert not any(math.isinf(value) for value in record.force_N)


def test_separator_at_the_end_of_every_line_is_no_column():
    record = read_record(text("time,force,", lambda n: f"{n / 500:.3f},650,"), "r")
    assert record.force_N[0] == 650
