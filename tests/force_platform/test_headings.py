"""What laboratories write above their numbers: each form read as it is meant, or refused; none guessed."""

import pytest

from planner.domain.findings import UserError
from planner.force_platform.reading.record_columns import ColumnWishes
from planner.force_platform.reading.record_file import RecordOptions, read_record

ROWS = 60
WEIGHT_N = 650.0


def file(above, cells, *, delimiter=",", end="\n", rows=ROWS):
    """``above``: the lines over the rows; ``cells``: of each row, after its time in seconds at 500 a second."""
    lines = [delimiter.join([f"{n / 500:.3f}", *cells]) for n in range(rows)]
    return end.join([*above, *lines]).encode("utf-8")


def read(raw, **wishes):
    rate, unit = wishes.pop("rate", None), wishes.pop("unit", None)
    return read_record(raw, "record.csv", RecordOptions(rate, unit, ColumnWishes(**wishes)))


def refused(raw, **wishes):
    with pytest.raises(UserError) as caught:
        read(raw, **wishes)
    return {finding.code: finding for finding in caught.value.findings}


def doubts(record):
    return {finding.code: finding for finding in record.doubts}


def is_the_force(record, force_N=WEIGHT_N, rate_Hz=500):
    return record.force_N[0] == pytest.approx(force_N) and record.rate_Hz == pytest.approx(rate_Hz)


@pytest.mark.parametrize(
    ("above", "factor"),
    [
        (["Time,Fz", "s,N"], 1),
        (["Time,Fz", "[s],[kN]"], 1000),
        (["Time,Fz", "(s),(N)"], 1),
        (["s,N"], 1),
        (["Time (s),Force (kN)"], 1000),
        (["time_s,Fz_N"], 1),
        (["# Time [s],Fz [N]"], 1),
        (['"Time","Fz"', '"s","N"'], 1),
        (["", "Time,Fz", "", "s,N", ""], 1),
        (["abs time (s),Fz", "s,N"], 1),
    ],
)
def test_units_stand_in_the_names_or_on_the_next_line(above, factor):
    record = read(file(above, [f"{650 / factor}"]))
    assert is_the_force(record)
    assert record.remarks[0].startswith("time: ")
    assert any(remark.startswith("force: ") for remark in record.remarks)
    assert not record.doubts
    assert not any("no unit" in remark for remark in record.remarks)


def test_names_over_a_line_of_units_serve_as_names():
    raw = file(["Time,Fx,Fy,Fz", "s,N,N,N"], ["3", "4", "650"])
    assert is_the_force(read(raw, force="Fz"))
    assert is_the_force(read(raw, force="4"))
    assert is_the_force(read(raw, force="fy"), 4)


def test_column_called_newton_alone():
    raw = "\n".join(["N", *["650"] * ROWS]).encode()
    assert is_the_force(read(raw, rate=500))
    assert "no-rate" in refused(raw)


PREAMBLES = [
    ["version=1", "nRows=60", "nColumns=2", "inDegrees=no", "endheader"],
    ["File: squat 3", "Operator: none", "", "Rows: 60"],
    ["NO_OF_SAMPLES,60", "TIME_STAMP,2025-09-20"],
    ["// made by hand", "%", "# no further remark"],
    ["Devices", "500"],
]


@pytest.mark.parametrize("preamble", PREAMBLES)
def test_lines_before_the_names_are_passed_over(preamble):
    record = read(file([*preamble, "time,Fz"], ["650"]))
    assert is_the_force(record)
    assert not record.doubts


def test_rates_above_the_rows_have_to_agree():
    raw = "\n".join(["Camera rate: 200 Hz", "Analog rate: 1000 Hz", "Fz (N)", *["650"] * ROWS]).encode()
    assert "--rate" in refused(raw)["which-rate"].hint
    assert read(raw, rate=1000).rate_Hz == 1000
    one = "\n".join(["FREQUENCY\t1000", "Fz", *["650"] * ROWS]).encode()
    record = read(one)
    assert record.rate_Hz == 1000
    assert any("from a line above" in remark for remark in record.remarks)
    assert "--rate is taken" in doubts(read(one, rate=600))["rate-differs"].message


def test_decimal_commas():
    semicolons = file(["Zeit;Kraft", "s;N"], ["650,5"], delimiter=";").replace(b".", b",")
    tabs = file(["Time\tFz"], ["650,5"], delimiter="\t").replace(b".", b",")
    assert is_the_force(read(semicolons), 650.5)
    assert is_the_force(read(tabs), 650.5)
    one = "\n".join(["Fz (N)", *["650,5"] * ROWS]).encode()
    record = read(one, rate=500)
    assert is_the_force(record, 650.5)
    assert any("decimal comma" in remark for remark in record.remarks)
    assert "which-column" in refused("\n".join(["Second jump", *["1,650"] * ROWS]).encode(), rate=500)
    for names in ("Time Fz", "Time,Fz"):
        both = file([names], ["650,5"]).replace(b".", b",")
        assert "semicolons" in refused(both)["decimal-comma"].hint


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "latin-1"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_marks_of_the_encoding_and_ends_of_lines(encoding, end):
    raw = file(["Time [s];Kraft größte [N]"], ["650"], delimiter=";", end=end).decode().encode(encoding)
    record = read(raw)
    assert is_the_force(record)
    assert record.remarks == ("time: Time", "force: Kraft größte")


def test_blank_and_comment_lines_among_the_rows():
    raw = file(["time,Fz", "# units: s, N"], ["650"]).replace(b"\n0.010", b"\n\n# second part\n0.010")
    record = read(raw)
    assert len(record.force_N) == ROWS
    assert is_the_force(record)


@pytest.mark.parametrize(
    ("above", "sides"),
    [
        ("time,Left Fz,Right Fz", ("left", "right")),
        ("time,left_vy,right_vy", ("left", "right")),
        ("time,FzL,FzR", ("left", "right")),
        ("time,LFz,RFz", ("left", "right")),
        ("time,FZ_L,FZ_R", ("left", "right")),
        ("time,FZL,FZR", ("left", "right")),
        ("time,Force Left (N),Force Right (N)", ("left", "right")),
        ("time,Fz1,Fz2", ("Fz1", "Fz2")),
        ("time,F1Z,F2Z", ("F1Z", "F2Z")),
        ("time,ground_force_1_vy,ground_force_2_vy", ("ground_force_1_vy", "ground_force_2_vy")),
        ("time,Force Plate 1 - Fz,Force Plate 2 - Fz", ("Force Plate 1 - Fz", "Force Plate 2 - Fz")),
    ],
)
def test_left_and_right_or_1_and_2_are_two_platforms(above, sides):
    record = read(file([above], ["300", "350"]))
    assert is_the_force(record)
    assert tuple(name for name, _ in record.sides) == sides
    assert any("the force is their sum" in remark for remark in record.remarks)


@pytest.mark.parametrize(
    "above",
    ["time,Force_Y,Force_Z", "time,Fy,Fz", "time,Fx,Fy", "time,Fz1,Fy2", "time,Fz left,Fy right", "time,Fz1,Fz3"],
)
def test_two_forces_of_other_names_are_never_added_up(above):
    raw = file([above], ["300", "350"])
    try:
        record = read(raw)
    except UserError as error:
        (finding,) = error.findings
        assert finding.code == "which-column"
        assert "--force" in finding.hint
        assert "--left" in finding.hint
    else:
        assert record.force_N[0] == 350
        assert "--force" in doubts(record)["which-axis"].hint
    by_hand = read(raw, sides=("2", "3"))
    assert by_hand.force_N[0] == 650


def test_vertical_axis_by_its_name():
    record = read(file(["time,Fx,Fy,Fz,Mx,My,Mz,COPx,COPy"], ["3", "-8", "650", "9", "9", "9", "800", "900"]))
    assert is_the_force(record)
    assert "vertical of Fx, Fy, Fz: Fz, by its name, and it carries the weight" in record.remarks
    assert not record.doubts


def test_vertical_axis_by_the_weight_it_carries():
    above = ["time,ground_force_vx,ground_force_vy,ground_force_vz,ground_force_px,ground_torque_x"]
    record = read(file(above, ["3", "650", "8", "900", "900"]))
    assert is_the_force(record)
    assert any("ground_force_vy, it carries the weight" in remark for remark in record.remarks)


def test_name_and_weight_that_contradict_each_other_are_a_doubt():
    record = read(file(["time,Fx,Fy,Fz"], ["3", "650", "8"]))
    assert is_the_force(record)
    assert "--force" in doubts(record)["which-axis"].hint


def test_axes_of_equal_weight_and_no_name_are_refused():
    assert "--force" in refused(file(["time,Fx,Fy"], ["300", "350"]))["which-column"].hint


def test_three_axes_of_two_platforms():
    above = ["time,Fx1,Fy1,Fz1,Mx1,Fx2,Fy2,Fz2,Mx2"]
    record = read(file(above, ["1", "2", "300", "9", "3", "4", "350", "9"]))
    assert is_the_force(record)
    assert tuple(name for name, _ in record.sides) == ("Fz1", "Fz2")


def test_names_of_two_lines_tell_the_platform():
    above = ["Time,Plate 1,,,Plate 2,,", "s,Fx,Fy,Fz,Fx,Fy,Fz", "s,N,N,N,N,N,N"]
    record = read(file(above, ["1", "2", "300", "3", "4", "350"]))
    assert is_the_force(record)
    assert "2 columns are called 'Fz'" in refused(file(["time,Fz,Fz"], ["300", "350"]), force="Fz")["no-column"].message


def test_foot_off_a_platform_does_not_change_its_vertical_axis():
    above = ["time,left Fx,left Fz,right Fx,right Fz"]
    assert is_the_force(read(file(above, ["0.4", "0.5", "9", "649.5"])))


def test_total_goes_before_single_platforms_where_those_are_no_pair():
    record = read(file(["time,Fz total,Fz 3,Fz 4"], ["650", "300", "350"]))
    assert is_the_force(record)


def test_one_platform_of_a_pair_is_a_doubt():
    record = read(file(["time,Left Fz"], ["300"]))
    assert "--force" in doubts(record)["one-side"].hint


def test_columns_without_names():
    record = read(file([], ["650"]))
    assert is_the_force(record)
    assert "--time" in doubts(record)["which-time"].hint
    assert "which-column" in refused(file([], ["300", "350"]))
    assert is_the_force(read(file([], ["300", "350"]), sides=("2", "3")))


def test_names_that_do_not_fit_the_columns_are_told():
    raw = file(["time,force,more,than,there,are"], ["650"])
    assert "by number" in doubts(read(raw, time="1", force="2"))["no-names"].hint


def test_two_time_columns_are_a_doubt_that_time_settles():
    raw = file(["Time,Elapsed,Fz"], ["7.5", "650"])
    assert "--time" in doubts(read(raw))["which-time"].hint
    assert not read(raw, time="time").doubts
    assert not read(raw, time="1").doubts


def test_unknown_unit_in_brackets_is_a_doubt_that_unit_settles():
    raw = file(["time,Force [daN]"], ["65"])
    assert "--unit" in doubts(read(raw))["unit"].hint


def test_numbers_of_samples_as_times_need_the_rate():
    raw = "\n".join(["time,Fz", *(f"{n},650" for n in range(ROWS))]).encode()
    assert "--rate" in refused(raw)["no-time-unit"].hint
    record = read(raw, rate=500)
    assert is_the_force(record)
    assert record.rate_stated


def test_counters_are_no_forces():
    assert is_the_force(read(file(["time,Sample,Sub Frame,Fz"], ["7", "3", "650"])))
