"""Entries written between the lines of a coach's log: what was there stays, what does not fit is refused whole."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from planner.domain.findings import UserError
from planner.domain.training_log import LoggedItem, LoggedSession
from planner.files.load import load_log
from planner.files.log_file import LogFile
from tests.past.logs import block, log_text, written


def opened(folder: Path, text: str | None = None) -> LogFile:
    path = written(folder, text or "")
    if text is None:
        path.unlink()
    return LogFile(path, "ana-block-log.yaml", folder / "ana-block.yaml", block())


def entry(session: str = "w1s3", day: str | None = "2026-01-08", **more: Any) -> LoggedSession:
    date = None if day is None else datetime.date.fromisoformat(day)
    return LoggedSession.model_construct(session=session, date=date, done=more.pop("done", "as-planned"), **more)


def test_a_new_log_points_to_its_block(tmp_path: Path) -> None:
    file = opened(tmp_path)
    assert file.is_new
    file.put(entry(effort=7, minutes=62))
    file.write()
    log = load_log(tmp_path / "ana-block-log.yaml").require()
    assert (log.block.path, log.block.plan_sha256) == ("ana-block.yaml", block().plan_sha256)
    assert [(one.session, one.effort, one.minutes) for one in log.sessions] == [("w1s3", 7, 62)]


def test_every_other_line_stays(tmp_path: Path) -> None:
    text = log_text()
    file = opened(tmp_path, text)
    squat = LoggedItem.model_construct(
        item="w1s3i4", movement="straight-leg-hinge-with-the-bar", load=115.0, reps=(6,) * 4
    )
    file.put(entry(items=(squat,), body_mass=81.5))
    file.write()
    after = (tmp_path / "ana-block-log.yaml").read_text("utf-8")
    kept = [line for line in text.splitlines() if line not in after.splitlines()]
    assert kept == [] and "# the hall was late" in after
    assert "load: 115 kg" in after and "body_mass: 81.5 kg" in after


def test_an_entry_goes_where_its_day_belongs(tmp_path: Path) -> None:
    file = opened(tmp_path)
    for session, day in (("w1s3", "2026-01-08"), ("w1s1", "2026-01-05"), ("w2s1", "2026-01-12"), ("w1s2", None)):
        file.put(
            entry(session, day, done="missed" if day is None else "as-planned", why="ill" if day is None else None)
        )
    assert [one.session for one in file.log.sessions] == ["w1s1", "w1s2", "w1s3", "w2s1"]


def test_an_entry_again_replaces_and_moves(tmp_path: Path) -> None:
    file = opened(tmp_path, log_text())
    file.put(entry("w1s1", "2026-01-05", effort=8))
    assert [(one.session, one.effort) for one in file.log.sessions] == [("w1s1", 8), ("w1s2", None)]
    file.put(entry("w1s1", "2026-01-07", effort=8))
    assert [one.session for one in file.log.sessions] == ["w1s2", "w1s1"]


def test_a_list_without_entries_can_be_filled(tmp_path: Path) -> None:
    head = log_text()[: log_text().index("sessions:")]
    for text in (f"{head}sessions: []\nnote: mine\n", f"{head}note: mine\n"):
        file = opened(tmp_path, text)
        file.put(entry())
        assert [one.session for one in file.log.sessions] == ["w1s3"] and file.log.note == "mine"


def test_what_does_not_fit_changes_nothing(tmp_path: Path) -> None:
    text = log_text()
    file = opened(tmp_path, text)
    for wrong in (entry(effort=11), entry("w9s9"), entry(items=(LoggedItem.model_construct(item="w1s1i1", sets=1),))):
        with pytest.raises(UserError):
            file.put(wrong)
    assert (tmp_path / "ana-block-log.yaml").read_text("utf-8") == text and not file.is_changed


@pytest.mark.parametrize("day", ["2026-01-05", "2026-01-07"])
def test_comments_of_an_entry_that_is_replaced_stay(tmp_path: Path, day: str) -> None:
    file = opened(tmp_path, log_text(("why: landings got loud}", "why: landings got loud} # both times")))
    file.put(entry("w1s1", day, minutes=60))
    file.write()
    after = (tmp_path / "ana-block-log.yaml").read_text("utf-8")
    assert "# both times" in after and "# the hall was late" in after


def test_a_log_changed_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    file = opened(tmp_path, log_text())
    file.put(entry())
    (tmp_path / "ana-block-log.yaml").write_text(log_text(("effort: 7", "effort: 6")), "utf-8")
    with pytest.raises(UserError) as refusal:
        file.write()
    assert refusal.value.findings[0].code == "changed-meanwhile"


def test_the_digest_follows_a_block_whose_entries_all_fit(tmp_path: Path) -> None:
    file = opened(tmp_path, log_text(("plan_sha256: ", "plan_sha256: 0")))
    assert [one.code for one in file.findings] == ["changed-block"]
    file.put(entry())
    assert file.log.block.plan_sha256 == block().plan_sha256 and file.findings == ()
