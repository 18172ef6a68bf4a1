"""Fields that several models have, each with the one sentence that says what it means.

``Name[T]`` is a field whose type differs from model to model. The sentences reach editors through the files' schemas.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import CalendarDate, Name, T, Text
from planner.domain.terms import Role

_SOURCE = Field(description="Where the figures come from: a published source, or their standing.")

# What a file is, and who may read what into it.
FileKind = Annotated[T, Field(description="What this file is, and the version of its format. Always the first field.")]
Id = Annotated[T, Field(description="Small letters, digits and hyphens; the name other files use.")]
PrintedName = Annotated[T, Field(description="The name that is printed.")]
AsPrinted = Annotated[Name, Field(description="As printed.")]
About = Annotated[T, Field(description="A remark for whoever reads the file.")]
Remark = Annotated[Text | None, Field(description="A remark; nothing is read from it.")]
Source = Annotated[Text, _SOURCE]
SourceLine = Annotated[str, _SOURCE]
ItsSource = Annotated[T, Field(description="Where that comes from.")]

# Tests and what they tell.
KindOf = Annotated[T, Field(description="Which sort it is; the other fields depend on it.")]
Date = Annotated[CalendarDate, Field(description="Year-month-day.")]
HowMeasured = Annotated[T, Field(description="How it was measured, and with what.")]
JumpsOff = Annotated[T, Field(description="Which leg or legs jump.")]
OnSide = Annotated[T, Field(description="Left or right; left out, both at once or the middle.")]
Have = Annotated[T, Field(description="What the tests show.")]
Need = Annotated[T, Field(description="What the target asks for.")]
FigureUnit = Annotated[str, Field(description="The unit of the figure.")]
ItsError = Annotated[T, Field(description="Its standard error.")]
InBodyWeights = Annotated[T, Field(description="The same in body weights.")]
SlowestFall = Annotated[T, Field(description="Least downward speed as the foot lands, metres a second.")]
FastestFall = Annotated[T, Field(description="Most downward speed as the foot lands, metres a second.")]
TestDays = Annotated[T, Field(description="Number of test days.")]
JumpsADay = Annotated[T, Field(description="Jumps on each.")]

# Movements, sessions and weeks.
MinutesLong = Annotated[T, Field(description="Length in minutes.")]
WarmUpMinutes = Annotated[T, Field(description="Minutes of warm-up.")]
WeekRole = Annotated[Role, Field(description="build, deload, intensify or taper.")]
PercentOfMaximum = Annotated[T, Field(description="Percent of the one-repetition maximum.")]
InReserve = Annotated[Annotated[int, Field(ge=0, le=10)] | None, Field(description="Reps left in reserve.")]
ObstacleHeight = Annotated[T, Field(description="Height of the box or hurdle.")]
Rest = Annotated[T, Field(description="Rest after a set.")]
Sprints = Annotated[T, Field(description="Sprint efforts.")]
Cues = Annotated[T, Field(description="One to three short cues, printed on the card.")]
Cautions = Annotated[T, Field(description="What to look out for, printed on the card.")]
Paper = Annotated[Literal["a4", "a5", "letter", "half-letter"], Field(description="Paper of the cards.")]
