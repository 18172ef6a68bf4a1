"""A coach's spreadsheet of tests: which columns it has, by which headings they are known, and what each becomes."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import CalendarDate, Model, MovementId, Seq
from planner.domain.fields import About, FileKind, Id
from planner.domain.measure import TestKind
from planner.domain.terms import Leg

__test__ = False  # not a pytest module

# A dot leads into a section of the athlete's file.
PersonField = Literal[
    "id", "name", "date", "birth_date", "sex", "sport", "body_mass", "stature", "standing_reach", "tip_toe_reach",
    "take_off", "approach.steps", "level", "landing", "training_age_years", "recent_load.weekly_contacts",
    "recent_load.weekly_high_contacts", "recent_load.weekly_sprints", "recent_load.weekly_working_sets",
    "target.touch", "target.rise", "note",
]  # fmt: skip
LongField = Literal["test", "side", "trial", "value", "unit"]

Names = Annotated[
    Seq[Annotated[str, Field(min_length=1, max_length=60)]],
    Field(description="Other headings taken for it, in small letters; add your own."),
]
Heading = Annotated[str, Field(min_length=1, max_length=60, description="Its heading in a new sheet.")]
HeadingUnit = Annotated[str | None, Field(description="The unit in that heading; a coach's sheet may have another.")]
Example = Annotated[
    str | int | float | CalendarDate | None, Field(description="What the example row of a new sheet holds.")
]
InSheet = Annotated[bool, Field(description="Whether a new sheet has it; a coach's sheet may have it all the same.")]


class PersonColumn(Model):
    """A column about the athlete."""

    field: PersonField = Field(description="The field of the athlete's file; a dot leads into a section.")
    heading: Heading
    names: Names = ()
    unit: HeadingUnit = None
    words: dict[str, str] = Field(
        default_factory=dict,
        description="What a coach writes, in small letters, and the word that the file has for it.",
    )
    says: str | None = Field(default=None, description="What a new sheet says of it where a cell is chosen.")
    example: Example = None
    in_sheet: InSheet = True


class LongColumn(Model):
    """A column of a sheet with one row a trial."""

    means: LongField = Field(description="What the column holds.")
    heading: Heading
    names: Names = ()


class SheetFigure(Model):
    """One figure of a trial."""

    field: str = Field(description="The field of the test that it becomes, such as trials, left, load or contact.")
    heading: Annotated[str, Field(max_length=60)] = Field(
        default="", description="What follows the test's heading; empty where a trial is one figure."
    )
    names: Names = ()
    unit: HeadingUnit = None
    example: Seq[str | int | float] = Field(default=(), description="Figures of the example row, one a trial.")


class SheetTest(Model):
    """A test of the battery: its columns are those of each side, trial and figure."""

    __test__ = False  # not a pytest class

    id: Id[MovementId]
    heading: Heading
    names: Names = ()
    kind: TestKind = Field(description="The kind of test that it becomes.")
    says: dict[str, str | int | float | bool] = Field(
        default_factory=dict, description="Fields that every test of it has; take_off: own is the athlete's own."
    )
    sides: bool = Field(default=False, description="Whether each leg has its own columns.")
    trials: int = Field(default=1, ge=1, le=12, description="Trials that a new sheet has columns for.")
    figures: Seq[SheetFigure] = Field(min_length=1, max_length=4, description="What is written of each trial.")
    in_sheet: InSheet = True


class TestSheet(Model):
    __test__ = False  # not a pytest class

    file: FileKind[Literal["test-sheet/1"]]
    about: About[str | None] = None
    nothing: Seq[Annotated[str, Field(max_length=20)]] = Field(
        default=(), description="What a cell says where nothing was measured, in small letters."
    )
    sides: dict[Leg, Names] = Field(description="Words for left and right in headings and cells, in small letters.")
    athlete: Seq[PersonColumn] = Field(min_length=1, description="The columns about the athlete, in order.")
    trials: Seq[LongColumn] = Field(default=(), description="The columns of a sheet with one row a trial.")
    tests: Seq[SheetTest] = Field(min_length=1, description="The battery, in order.")
