"""Where the pictures of progress draw what, in points, worked by hand from their figures."""

from __future__ import annotations

import datetime

import pytest

from planner.cards.progress_pictures import BandChart, BandRow, DayLine, DayPoint, WeekPair, WeekPairs

from .recorder import Circle, Line, Recorder, Rect, Words

FIRST = datetime.date(2026, 1, 5)


def drawn(picture: WeekPairs | DayLine | BandChart, width: float) -> Recorder:
    recorder = Recorder()
    picture.draw(recorder, width)  # type: ignore[arg-type]
    return recorder


def places(recorder: Recorder) -> dict[str, tuple[float, float, float]]:
    """Left end, middle and baseline of what is said, by its words."""
    return {one.text: (one.x, one.x + one.width / 2, one.y) for one in recorder.all(Words)}


def day(number: int) -> datetime.date:
    return FIRST + datetime.timedelta(days=number)


def test_weeks_are_pairs_of_bars_to_the_scale_of_the_highest() -> None:
    """39 points for 40 sets: 84 high, less 14 for the title, 22 for the axis and 9 for the figures."""
    picture = drawn(WeekPairs("Sets", "a week", [WeekPair(7, 40, 20), WeekPair(8, 10, 30, "ill")]), 200)
    planned, done = ([one for one in picture.all(Rect) if one.filled == filled] for filled in (False, True))
    assert [(one.x, one.y, one.width, one.height) for one in planned] == [(33, 22, 34, 39), (133, 22, 34, 9.75)]
    assert [(one.x, one.y, one.width, one.height) for one in done] == [(41.5, 22, 17, 19.5), (141.5, 22, 17, 29.25)]
    said = places(picture)
    assert said["20 of 40"][1:] == pytest.approx((50, 63)) and said["30 of 10"][1:] == pytest.approx((150, 53.25))
    assert said["7"][1:] == pytest.approx((50, 13)) and said["× ill"][1:] == pytest.approx((150, 4))
    assert said["Sets, a week"][::2] == pytest.approx((0, 75.5)) and len(said) == 6
    assert [(one.x1, one.y1, one.x2, one.y2) for one in picture.all(Line)] == [(0, 22, 200, 22)]


def test_narrow_weeks_keep_their_words_to_themselves() -> None:
    """20 points a week: words a point narrower, bars seven tenths."""
    weeks = [WeekPair(at, 1000, 1000, "a journey of some days") for at in (1, 2)]
    picture = drawn(WeekPairs("A title that is much wider than the picture", "sets", weeks), 40)
    widths = {one.text: one.width for one in picture.all(Words)}
    assert widths["× a journey of some days"] == pytest.approx(19) == widths["1000 of 1000"]
    assert widths["A title that is much wider than the picture, sets"] == pytest.approx(40)
    assert [one.width for one in picture.all(Rect)] == pytest.approx([14, 7] * 2)


def test_less_than_one_is_a_share_of_one() -> None:
    assert drawn(WeekPairs("Sets", "a week", [WeekPair(1, 0.5, 0)]), 200).all(Rect)[0].height == 19.5


def test_days_are_on_a_line_by_their_date_and_value() -> None:
    """192 points for ten days from 38 on, 78 points for a scale of 0 to 10 from 22 on."""
    points = [DayPoint(day(0), 5), DayPoint(day(1), 4, 1.0), DayPoint(day(2), 10), DayPoint(day(10), 0, filled=True)]
    picture = drawn(DayLine("Pain", "0 to 10", points, [(2, "green up to here")], 0, 10), 242)
    circles = picture.all(Circle)
    assert [(one.cx, one.cy) for one in circles] == [
        pytest.approx(at) for at in ((38, 61), (57.2, 53.2), (76.4, 100), (230, 22))
    ]
    assert [(one.r, one.filled) for one in circles] == [(2.6, False)] * 3 + [(2.6, True)]
    lines = [(one.x1, one.y1, one.x2, one.y2) for one in picture.all(Line) if not one.dash]
    axes, ticks, spreads = lines[:2], lines[2:8], lines[8:]
    assert axes == [(34, 22, 234, 22), (34, 22, 34, 100)]
    assert ticks == [pytest.approx((31, y, 34, y)) for y in (22, 37.6, 53.2, 68.8, 84.4, 100)]
    assert spreads == [pytest.approx((57.2, 45.4, 57.2, 61))]
    [dotted] = [one for one in picture.all(Line) if one.dash]
    assert (dotted.x1, dotted.y1, dotted.x2, dotted.y2) == pytest.approx((34, 37.6, 234, 37.6))
    right = {one.text: (one.x + one.width, one.y) for one in picture.all(Words)}
    assert right["green up to here"] == pytest.approx((234, 39.6))
    assert right["10"] == pytest.approx((29, 97.5)) and right["0"] == pytest.approx((29, 19.5))
    assert right["Pain, 0 to 10"][1] == 109.5


def test_dates_are_told_as_far_as_they_fit() -> None:
    """19.2 points a day, 30 for a date; a day with two jumps has one."""
    points = [DayPoint(day(at), 1) for at in (0, 1, 1, 2, 10)]
    said = places(drawn(DayLine("Touch", "cm", points, low=0, high=10), 242))
    dates = {text: at[1:] for text, at in said.items() if "Jan" in text}
    assert dates == {
        "5 Jan": pytest.approx((38, 13)), "7 Jan": pytest.approx((76.4, 13)), "15 Jan": pytest.approx((230, 13)),
    }  # fmt: skip


def test_a_scale_holds_every_error_and_every_line_across() -> None:
    points = [DayPoint(day(0), 100, 20), DayPoint(day(1), 110, 5)]
    said = places(drawn(DayLine("Touch", "cm", points, [(200, "target")]), 242))
    assert {"75", "200"} <= set(said) and "50" not in said and "225" not in said
    one_day = drawn(DayLine("Touch", "cm", [DayPoint(FIRST, 100), DayPoint(FIRST, 110)]), 242)
    assert [one.cx for one in one_day.all(Circle)] == [38, 38]


def test_bands_have_a_row_each_on_one_scale() -> None:
    """118 points from 72 on, for a scale of 100 to 150; rows of 24 points under 14 of title."""
    rows = [BandRow("Squat", 100, 130, (120, 140), (110, 150)), BandRow("Hinge", None, 125, (120, 130), (115, 135))]
    picture = drawn(BandChart("Maximum", "kg", rows), 200)
    circles = [(one.cx, one.cy, one.r, one.filled) for one in picture.all(Circle)]
    assert circles == [
        pytest.approx((72, 55.6, 2.6, False)),
        pytest.approx((142.8, 55.6, 3.0, True)),
        pytest.approx((131, 31.6, 3.0, True)),
    ]
    inner = [(one.x, one.y, one.width, one.height, one.filled) for one in picture.all(Rect)]
    assert inner == [pytest.approx((119.2, 54.5, 47.2, 2.2, True)), pytest.approx((119.2, 30.5, 23.6, 2.2, True))]
    lines = [(one.x1, one.y1, one.x2, one.y2) for one in picture.all(Line)]
    assert lines[0] == (72, 22, 190, 22)
    assert lines[1:7] == [pytest.approx((72 + 23.6 * at, 19, 72 + 23.6 * at, 22)) for at in range(6)]
    assert lines[7:] == [pytest.approx((95.6, 55.6, 190, 55.6)), pytest.approx((107.4, 31.6, 154.6, 31.6))]
    said = places(picture)
    assert said["100"][1:] == pytest.approx((72, 10.5)) and said["150"][1:] == pytest.approx((190, 10.5))
    assert said["Squat"][::2] == pytest.approx((0, 52.8)) and said["Hinge"][::2] == pytest.approx((0, 28.8))
    assert said["Maximum, kg"][::2] == pytest.approx((0, 75.5))
    wide = drawn(BandChart("Maximum", "kg", [BandRow("A name wider than its room", None, 1, (1, 1), (0, 2))]), 100)
    assert max(one.width for one in wide.all(Words) if "room" in one.text) == pytest.approx(28)
