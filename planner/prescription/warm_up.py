"""The warm-up of a session: the layout's steps for its most demanding part, fitted to the minutes it has."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.block import AthleteLine, Session
from planner.domain.card_layout import CardLayout, WarmUp, WarmUpStep
from planner.units import YARD_m

_RUN_STEP, _SHORTEST_RUN_m = 5, 10  # runs are paced out in steps of 5 m or yards; under 10 m nobody gets going
_JUMPING = frozenset({"landing", "skill", "approach-jump", "jump"})


def kind_of(session: Session) -> WarmUp:
    """The most demanding part of the session decides; an item without sets does not count."""
    parts = {item.part for item in session.items if item.sets}
    if "test" in parts:
        return "test"
    if "sprint" in parts:
        return "sprint"
    return "jump" if parts & _JUMPING else "lift"


def fitted(steps: Sequence[WarmUpStep], session: Session) -> list[tuple[WarmUpStep, int]]:
    """The steps that the warm-up has time for, in order, each with its minutes, which add up to the whole.

    A step that the session does anyway is left out. When time is short, the highest ``rank`` is cut first: minute by
    minute to its least, then entirely. Spare minutes go to the first step.
    """
    parts = {item.part for item in session.items if item.sets}
    plan = [(step, step.minutes) for step in steps if not parts & set(step.not_with)]
    while len(plan) > 1 and _over(plan, session) > 0:
        plan = _cut(plan)
    spare = -_over(plan, session)
    return [(step, minutes + (spare if place == 0 else 0)) for place, (step, minutes) in enumerate(plan)]


def warm_up_line(session: Session, athlete: AthleteLine, layout: CardLayout) -> str:
    """``3 min easy run · 2 min leg swings``; empty if the session has no warm-up or the layout no steps for it."""
    return " · ".join(f"{length} {do}" for length, do in warm_up_steps(session, athlete, layout))


def warm_up_steps(session: Session, athlete: AthleteLine, layout: CardLayout) -> list[tuple[str, str]]:
    """Each step as how long (``3 min``) and what to do."""
    if not session.warm_up_minutes:
        return []
    steps = fitted(_steps(session, layout), session)
    return [(f"{minutes} {layout.words.minutes}", _do(step, athlete)) for step, minutes in steps]


def _steps(session: Session, layout: CardLayout) -> Sequence[WarmUpStep]:
    if session.focus in layout.warm_up_for:
        return layout.warm_up_for[session.focus]
    if layout.before_run_up_jumps and _jumps_maximally(session):
        return layout.before_run_up_jumps
    return layout.warm_up.get(kind_of(session), ())


def _jumps_maximally(session: Session) -> bool:
    return any(item.sets and item.part == "approach-jump" and item.tier == "high" for item in session.items)


def _do(step: WarmUpStep, athlete: AthleteLine) -> str:
    """The step's text, with a run that fits the floor; what is done instead where the floor is too short to run."""
    if step.run is None:
        return step.do
    floor_m = step.run if athlete.runway_m is None else athlete.runway_m - step.run_out
    inches = athlete.length_unit == "in"
    unit = YARD_m if inches else 1.0
    run = int(min(step.run, floor_m) / unit) // _RUN_STEP * _RUN_STEP
    if run * unit < _SHORTEST_RUN_m and step.no_floor is not None:
        return step.no_floor
    fitting = str(max(run, _RUN_STEP))
    return step.do.replace("{run} m", "{run} yd" if inches else "{run} m").replace("{run}", fitting)


def _over(plan: Sequence[tuple[WarmUpStep, int]], session: Session) -> int:
    return sum(minutes for _, minutes in plan) - session.warm_up_minutes


def _cut(plan: list[tuple[WarmUpStep, int]]) -> list[tuple[WarmUpStep, int]]:
    """Cut a minute from the highest rank that can be shorter, else drop the highest rank; the later step on a tie."""
    order = sorted(range(len(plan)), key=lambda place: (plan[place][0].rank, place), reverse=True)
    for place in order:
        step, minutes = plan[place]
        if minutes > (step.least or step.minutes):
            return [*plan[:place], (step, minutes - 1), *plan[place + 1 :]]
    return [*plan[: order[0]], *plan[order[0] + 1 :]]
