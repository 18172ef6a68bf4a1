"""What a block usually brings, when a change is worth having, and what follows for the next block."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from planner.domain.base import Distance, Fraction, Model, Percent, Seq, Text
from planner.domain.completeness import out_of_sense, require_every_word
from planner.domain.fields import ItsSource, Source
from planner.domain.terms import Level

GainKind = Literal["lift", "isometric-calf", "heel-raise", "drop-jump", "flying-sprint"]
# What the retest says of strength and jump, with what was done: one of these holds.
Row = Literal["both-up", "strength-up", "jump-up", "neither-done", "neither-not-done", "neither-unknown", "sore-joint"]


class UsualJumpGain(Model):
    """What a block brings to the target jump: the mean by level, and how far athletes differ."""

    gain: dict[Level, Distance] = Field(description="Mean gain of a whole block, by level.")
    spread: Distance = Field(description="How far athletes differ in it, as a standard deviation.")
    source: Source

    @model_validator(mode="after")
    def _complete(self) -> UsualJumpGain:
        require_every_word(self, "gain")
        return self


class UsualTestGain(Model):
    """The same for a kind of test that tells a quality, in percent of its result."""

    kind: GainKind = Field(description="Kind of test.")
    gain_percent: Percent = Field(description="Mean gain of a whole block.")
    spread_percent: Percent = Field(description="How far athletes differ in it, as a standard deviation.")
    worth_having_percent: Percent = Field(description="A gain up to this is too small to matter.")


class OutcomeRule(Model):
    """How a retest is read: seen change and usual gain weighed by their errors, and the words for the chance."""

    jump: UsualJumpGain = Field(description="What a block brings to the target jump.")
    tests: Seq[UsualTestGain] = Field(description="What it brings to each kind of test of a quality.")
    tests_source: ItsSource[Text]
    whole_block_weeks: int = Field(ge=1, le=52, description="A shorter block is expected to bring its share of that.")
    retest_within_days: int = Field(
        ge=0, le=120, description="Tests later than this after the block's test day tell of the weeks after it as well."
    )
    believed_interval: Fraction = Field(description="Share of the interval that is printed with what is believed.")
    bare_interval: Fraction = Field(
        description="It worked only where this interval of the seen change alone lies above 0."
    )
    almost_surely_from: Fraction = Field(description="From this chance on: almost surely worth having.")
    likely_from: Fraction = Field(description="From this chance on: likely; below it nobody can tell.")
    unlikely_below: Fraction = Field(description="Below this chance: unlikely.")
    least_done: Fraction = Field(description="Where less of the plan was done, the block was not tested.")
    next_block: dict[Row, Text] = Field(description="What to do next, for each row of the table.")
    source: Source

    @model_validator(mode="after")
    def _complete(self) -> OutcomeRule:
        require_every_word(self, "next_block")
        if not self.unlikely_below < self.likely_from < self.almost_surely_from:
            what = "'likely_from' is not between unlikely_below and almost_surely_from"
            raise out_of_sense(("likely_from",), what, "put the three chances in order")
        return self
