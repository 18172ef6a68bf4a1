"""A log broken anywhere is told in findings, never in a traceback; an entry is written and read back alike."""

from __future__ import annotations

import datetime
from typing import Any, cast

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.domain.training_log import LoggedItem, LoggedPain, LoggedSession, TrainingLog
from planner.files.document import Loaded
from planner.files.dump import plain_to_yaml
from planner.files.load import load_bytes, then
from planner.files.log_file import entry_data
from planner.files.log_references import log_references
from planner.files.sense.log_sense import log_sense
from planner.units import POUND_kg
from tests.past.logs import block, log_text

JUNK = ("", "12", "-", "[", "{a: b}", "0x1F", "2025-02-30", "x" * 300, "\t", "null", "é", '"', "- - -")


@pytest.mark.parametrize("at", range(len(log_text().splitlines())))
def test_no_line_is_a_traceback(at: int) -> None:
    lines = log_text().splitlines()
    head = lines[at].partition(":")[0]
    variants = [lines[:at] + lines[at + 1 :], [*lines[:at], lines[at], *lines[at:]], [*lines[: at + 1]]]
    variants += [[*lines[:at], f"{head}: {junk}", *lines[at + 1 :]] for junk in JUNK]
    for variant in variants:
        loaded = load_bytes(("\n".join(variant) + "\n").encode(), "log.yaml", ("log/1",))
        loaded = then(then(cast("Loaded[TrainingLog]", loaded), log_sense), lambda one: log_references(one, block()))
        assert loaded.value is not None or loaded.findings


_grams = st.integers(1, 60000).map(lambda hundredths: hundredths / 100)
_loads = st.one_of(_grams, st.integers(1, 1300).map(lambda lb: lb * POUND_kg))
_counts = st.lists(st.integers(0, 60), max_size=5).map(tuple)
_items = st.builds(
    LoggedItem.model_construct,
    item=st.sampled_from([item.id for item in block().weeks[0].sessions[0].items]),
    movement=st.sampled_from([None, "back-squat"]),
    load=st.one_of(st.none(), _loads),
    reps=_counts,
    reps_in_reserve=st.lists(st.integers(0, 10), max_size=3).map(tuple),
    touches=st.lists(st.integers(1400, 4500).map(lambda mm: mm / 1000), max_size=3).map(tuple),
    why=st.sampled_from([None, "landings: loud, # really", "- x", "12", "yes"]),
)
_pains = st.builds(
    LoggedPain.model_construct,
    joint=st.sampled_from(["patellar-knee", "low-back"]),
    side=st.sampled_from([None, "left"]),
    before=st.one_of(st.none(), st.integers(0, 10)),
    worst=st.integers(0, 10),
    signs=st.sampled_from([(), ("swelling", "night-pain")]),
)
_entries = st.builds(
    LoggedSession.model_construct,
    session=st.just("w1s1"),
    date=st.dates(datetime.date(2026, 1, 1), datetime.date(2026, 3, 1)),
    written=st.sampled_from(["same-day", "later"]),
    done=st.sampled_from(["as-planned", "changed", "unfinished"]),
    effort=st.one_of(st.none(), st.integers(0, 10)),
    minutes=st.one_of(st.none(), st.integers(0, 600)),
    items=st.lists(_items, max_size=3).map(tuple),
    pain=st.lists(_pains, max_size=2).map(tuple),
    body_mass=st.one_of(st.none(), st.integers(300, 2000).map(lambda tenths: tenths / 10)),
    note=st.sampled_from([None, "slept badly: 5 h", "# not a comment", "true", "null"]),
)


@given(_entries, st.sampled_from(["kg", "lb"]), st.sampled_from(["cm", "in"]))
@settings(max_examples=150)
def test_an_entry_is_written_and_read_back(entry: LoggedSession, mass: str, length: str) -> None:
    head = {"file": "log/1", "block": {"path": "b.yaml", "plan_sha256": "0"}}
    text = plain_to_yaml({**head, "sessions": [entry_data(entry, mass, length)]})
    loaded = load_bytes(text.encode(), "log.yaml", ("log/1",))
    assert loaded.findings == ()
    again = cast(TrainingLog, loaded.value).sessions[0]
    assert _rounded(again.model_dump()) == _rounded(entry.model_dump())


def _rounded(value: Any) -> Any:
    """Kilograms to the milligram: a pound is written in pounds."""
    if isinstance(value, dict):
        return {key: _rounded(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_rounded(inner) for inner in value]
    return round(value, 6) if isinstance(value, float) else value
