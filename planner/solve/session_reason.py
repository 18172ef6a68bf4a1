"""One line for each session: why it has what it has. Each part of it is true of what is on the card."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from planner.domain.block import Week
from planner.domain.gap_record import Gap, QualityLine
from planner.domain.template import Claim, Shape
from planner.domain.terms import LEGS, LIFT_QUALITIES, QUALITY_NAMES, Quality
from planner.problem.model import Problem
from planner.rules.recount import CountedItem, CountedSession, CountedWeek, count_week
from planner.rules.target_jump_weekly import is_target_jump

SURE_FROM_CONFIDENCE = 0.4  # below it a test is little more than a hint: common practice, no source
SURE_FROM_ERRORS = 2  # a deficit of fewer standard errors may be chance: about one test in twenty errs by more


def with_reasons(week: Week, problem: Problem, unsure: Collection[Quality]) -> Week:
    """The week with each session's reason; the closing test has its own."""
    counted = count_week(week, problem)
    shapes = {shape.id: shape for shape in problem.template.shapes}
    sessions = tuple(
        one.session
        if one.session.focus not in shapes
        else one.session.model_copy(update={"why": _why(problem, shapes[one.session.focus], counted, one, unsure)})
        for one in counted.sessions
    )
    return week.model_copy(update={"sessions": sessions})


def unsure_of(problem: Problem, gap: Gap) -> frozenset[Quality]:
    """Qualities whose deficit is within two standard errors or hardly believed; none with an earlier template."""
    if problem.template.progress is None:
        return frozenset()
    shortest: dict[Quality, QualityLine] = {}
    for line in gap.qualities:
        tested = line.counts and line.status == "tested"
        if tested and (line.quality not in shortest or line.deficit > shortest[line.quality].deficit):
            shortest[line.quality] = line
    return frozenset(quality for quality, line in shortest.items() if _is_unsure(line))


def _is_unsure(line: QualityLine) -> bool:
    return line.deficit <= SURE_FROM_ERRORS * (line.deficit_se or 0.0) or line.confidence < SURE_FROM_CONFIDENCE


def _why(
    problem: Problem, shape: Shape, week: CountedWeek, session: CountedSession, unsure: Collection[Quality]
) -> str:
    """The week's role if it is not a load week, the shape's reason, and what the tests ask more of."""
    parts = []
    if week.week.role == "deload":
        parts.append("Easy week.")
    if week.week.role == "taper":
        parts.append("Taper: half the work, all the speed.")
    if problem.light == (week.number, problem.slot_on(week.number, session.date)):
        parts.append("First session back: light.")
    elif week.number in problem.easy_weeks:
        parts.append("An easy week after days lost.")
    parts.append(_reason(problem, shape, week, session))
    more = [quality for quality in _asked_more(problem) if _holds(session, quality)]
    for asks, those in (("asks", [q for q in more if q not in unsure]), ("may ask", [q for q in more if q in unsure])):
        if those:
            parts.append(f"The test {asks} for more {' and '.join(QUALITY_NAMES[quality] for quality in those)}.")
    return " ".join(parts)


def _reason(problem: Problem, shape: Shape, week: CountedWeek, session: CountedSession) -> str:
    """The first of the shape's reasons of which all is so."""
    for reason in shape.why_if:
        if all(IS_SO[claim](problem, week, session) for claim in reason.holds):
            return reason.says
    return shape.why


IsSo = Callable[[Problem, CountedWeek, CountedSession], bool]


def _does(fits: Callable[[Problem, CountedItem], bool]) -> IsSo:
    return lambda problem, week, session: any(item.works and fits(problem, item) for item in session.items)


def _is_target_jump(problem: Problem, item: CountedItem) -> bool:
    return is_target_jump(problem, item.movement)


def _is_easy(problem: Problem, week: CountedWeek, session: CountedSession) -> bool:
    def points(one: CountedSession) -> float:
        return max(one.stress("achilles-ankle", leg) for leg in LEGS)

    recovery = problem.template.recovery
    is_light = recovery is None or points(session) <= recovery.after_hard_day_points
    return is_light and any(points(other) > points(session) for other in week.sessions if other is not session)


def _jumps(problem: Problem, week: CountedWeek, session: CountedSession) -> bool:
    return session.contacts > 0


IS_SO: Mapping[Claim, IsSo] = {
    "run-up-jump": _does(lambda problem, item: problem.athlete.approach.steps > 0 and _is_target_jump(problem, item)),
    "target-jump": _does(_is_target_jump),
    "high-jump": _does(lambda problem, item: item.item.tier == "high"),
    "jump": _jumps,
    "no-jump": lambda problem, week, session: not _jumps(problem, week, session),
    "sprint": _does(lambda problem, item: item.movement.sprint is not None),
    "squat": _does(lambda problem, item: "squat" in item.movement.patterns),
    "hinge": _does(lambda problem, item: "hinge" in item.movement.patterns),
    "easy-tendons": _is_easy,
    "match": lambda problem, week, session: bool(problem.athlete.matches),
}


def _asked_more(problem: Problem) -> list[Quality]:
    """Qualities with more emphasis. Differences too small to act on leave a tilt of 1 (the benchmarks' dead zone)."""
    return [q for q, tilt in sorted(problem.tilts.items(), key=lambda pair: -pair[1]) if tilt > 1]


def _holds(session: CountedSession, quality: Quality) -> bool:
    if quality in LIFT_QUALITIES:
        return any(one.movement.qualities.get(quality, 0) == 3 and one.working_sets for one in session.items)
    return any(one.works and (one.movement.sprint is not None or one.item.tier == "high") for one in session.items)
