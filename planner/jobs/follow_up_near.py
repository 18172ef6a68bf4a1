"""The coach's follow-up file: how logs, sheets, outcomes and the block after are read."""

from __future__ import annotations

from pathlib import Path

from planner.domain.follow_up import FollowUp
from planner.files.load import load_follow_up
from planner.files.locate import TEMPLATES, locate_follow_up, packaged


def follow_up_near(path: str | Path) -> FollowUp:
    """The one near this file, else the shipped one. UserError where it has findings."""
    at = locate_follow_up(path)
    return load_follow_up(at.path, at.display).require()


def shipped_follow_up() -> FollowUp:
    """For figures that an older file of a coach's does not have."""
    return load_follow_up(packaged(TEMPLATES) / "follow-up" / "standard.yaml").require()
