"""What ``plan --after`` makes of the block before: days between, the usual week, and what each outcome asks for."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from planner.domain.base import Model, Percent
from planner.domain.block_before import Share
from planner.domain.completeness import out_of_sense
from planner.domain.fields import Source
from planner.domain.outcome_rule import Row

Days = Annotated[int, Field(ge=0, le=60)]


class NextBlockAims(Model):
    """What an outcome asks of the next block; what is left out stays as the tests have it."""

    lifts: Share = Field(default=1.0, description="Share of the lifts' sets.")
    jumps: Share = Field(default=1.0, description="Share of sprints, medium and high jumps.")
    rotate: bool = Field(default=True, description="false: accessory movements stay, so that one thing changes.")


class NextBlockRule(Model):
    easier_days: Days = Field(description="The fewest easier days between the last hard day and the next block.")
    most_easier_days: Days = Field(description="More than this is a rest, and the usual week counts for less.")
    usual_weeks: int = Field(ge=1, le=12, description="How many of the last load weeks make the usual week.")
    contact_longer_percent: Percent = Field(
        description="Where contact is no more than this longer than before, jumps go on from where they are."
    )
    asked: dict[Row, NextBlockAims] = Field(description="What each outcome asks for, where it asks for a change.")
    source: Source

    @model_validator(mode="after")
    def _in_order(self) -> NextBlockRule:
        if self.most_easier_days < self.easier_days:
            raise out_of_sense(("most_easier_days",), "'most_easier_days' is below easier_days", "raise it")
        return self
