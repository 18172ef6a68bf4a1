"""``jumpblock calendar`` writes a calendar, pipes one, and leaves files alone that are not calendars."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from planner.cli.calendar import command
from planner.files.dump import block_to_yaml
from tests.cards.invented_block import block


@pytest.fixture
def block_file(tmp_path: Path) -> Path:
    path = tmp_path / "block.yaml"
    path.write_text(block_to_yaml(block(weeks=1)), "utf-8")
    return path


def test_file_and_pipe_hold_the_same(block_file: Path, tmp_path: Path) -> None:
    out = tmp_path / "deep" / "block.ics"
    written = CliRunner().invoke(command, [str(block_file), "-o", str(out)])
    assert written.exit_code == 0, written.output
    piped = CliRunner().invoke(command, [str(block_file), "-o", "-"])
    assert piped.stdout_bytes == out.read_bytes()
    assert out.read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_a_calendar_is_written_again_but_no_other_file(block_file: Path, tmp_path: Path) -> None:
    out = tmp_path / "block.ics"
    for _ in range(2):
        assert CliRunner().invoke(command, [str(block_file), "-o", str(out)]).exit_code == 0
    before = block_file.read_bytes()
    refused = CliRunner().invoke(command, [str(block_file), "-o", str(block_file)])
    assert refused.exit_code == 1 and "not-a-calendar" in refused.output
    assert block_file.read_bytes() == before


def test_a_time_is_a_time_of_day(tmp_path: Path) -> None:
    from planner.files.load import load_athlete

    shipped = (Path(__file__).parents[2] / "templates/athletes/in-season-player.yaml").read_text("utf-8")
    for time, fits in (('"17:30"', True), ("17:30", True), ("5 pm", False), ('"24:00"', False), ("7:30", False)):
        path = tmp_path / "athlete.yaml"
        path.write_text(shipped.replace("{day: mon, minutes: 75,", f"{{day: mon, minutes: 75, time: {time},"), "utf-8")
        found = load_athlete(path)
        assert (found.value is not None) == fits, time
        if not fits:
            assert any("time" in finding.message for finding in found.findings), found.findings
