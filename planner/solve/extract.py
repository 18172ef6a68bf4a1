"""Values of variables become a block's weeks: items in the order they are done, loads, notes, totals."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from typing import Literal

from planner.domain.block import Band, Bands, Block, Item, Session, Totals, Week
from planner.domain.block_parts import LegPoints
from planner.domain.movement import Movement, side_of
from planner.domain.template import Shape
from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, TIERS, Quality
from planner.problem.loads import prescribe
from planner.problem.model import STRESS_UNITS_PER_POINT, Entry, Problem
from planner.problem.per_set import once_seconds
from planner.problem.retest import test_warm_up_minutes
from planner.problem.variable import Values, in_key, takes_key
from planner.rules.build_up_jumps import builds_up
from planner.rules.recount import count_session, count_week
from planner.rules.session_shape import home
from planner.solve.session_reason import with_reasons

TEST_FOCUS, TEST_TITLE = "test", "Test day"
NO_TOTALS = Totals(working_sets={}, contacts={}, sprint_efforts=0, sprint_m=0.0, joint_stress={})


def extract_weeks(problem: Problem, values: Values, unsure: Collection[Quality] = ()) -> tuple[Week, ...]:
    """Every week with its sessions in order of date. ``unsure``: what the tests may be short of by chance alone."""
    return tuple(with_reasons(_week(problem, values, number), problem, unsure) for number in problem.weeks)


def after_the_past(old: Block, weeks: Sequence[Week], problem: Problem) -> tuple[Week, ...]:
    """The old block's sessions as they are up to the first day, then those of ``weeks``."""
    return tuple(_half_old(before, after, problem) for before, after in zip(old.weeks, weeks, strict=True))


def _half_old(old: Week, new: Week, problem: Problem) -> Week:
    if old.number != problem.first_week:
        return old if old.number < problem.first_week else new
    gone = tuple(session for session in old.sessions if session.date < problem.first_day)
    to_come = [session for session in new.sessions if session.date >= problem.first_day]
    sessions = (*gone, *(_numbered(s, f"w{new.number}s{len(gone) + n}") for n, s in enumerate(to_come, start=1)))
    week = new.model_copy(update={"sessions": sessions})
    return week.model_copy(update={"totals": totals(problem, week)})


def _numbered(session: Session, session_id: str) -> Session:
    items = tuple(item.model_copy(update={"id": f"{session_id}i{n}"}) for n, item in enumerate(session.items, start=1))
    return session.model_copy(update={"id": session_id, "items": items})


def _week(problem: Problem, values: Values, number: int) -> Week:
    sessions: list[Session] = []
    for slot in problem.training_days(number):
        shape = _shape(problem, values, number, slot)
        entries = _done(problem, values, number, slot)
        if problem.is_test_day(number, slot):
            sessions.append(_test_session(problem, number, slot, len(sessions) + 1))
        elif shape is not None and entries:
            sessions.append(_session(problem, values, entries, shape, len(sessions) + 1))
    week = Week(
        number=number,
        phase=problem.phase_name(number),
        role=problem.role(number),
        start=problem.week_start(number),
        totals=NO_TOTALS,
        bands=_bands(problem, number),
        sessions=tuple(sessions),
    )
    return week.model_copy(update={"totals": totals(problem, week)})


def _shape(problem: Problem, values: Values, week: int, slot: int) -> Shape | None:
    if week == problem.last_week:
        return problem.test_week_shapes.get(slot)
    return next((shape for shape in problem.shapes if values[takes_key(slot, shape.id)]), None)


def _done(problem: Problem, values: Values, week: int, slot: int) -> list[Entry]:
    """Movements with sets, and those that only the date bars (printed with the reason)."""
    return [
        entry
        for entry in problem.entries[week, slot]
        if values[entry.key]
        or (entry.barred is not None and values.get(in_key(problem.phase_of(week), slot, entry.movement.id)))
    ]


def _session(problem: Problem, values: Values, entries: list[Entry], shape: Shape, number: int) -> Session:
    week, slot = entries[0].week, entries[0].slot
    ordered = sorted(entries, key=lambda entry: _place(problem, shape, entry))
    session_id = f"w{week}s{number}"
    items = tuple(
        item_of(problem, entry, values[entry.key], f"{session_id}i{i}") for i, entry in enumerate(ordered, start=1)
    )
    minutes, warm_up_minutes = session_minutes(shape.warm_up_minutes, [(values[e.key], e) for e in ordered])
    session = Session(
        id=session_id,
        date=problem.dates[week, slot],
        minutes=minutes,
        hard_day=False,
        why=shape.why,
        focus=shape.id,
        title=shape.name,
        warm_up_minutes=warm_up_minutes,
        items=items,
    )
    return session.model_copy(update={"hard_day": count_session(session, problem).is_hard(problem)})


def session_minutes(warm_up_minutes: int, sets: Iterable[tuple[int, Entry]]) -> tuple[int, int]:
    """How long a session with these sets takes, and how long its printed warm-up.

    Maximal jumps add the jumps that build up to them to the warm-up of the shape; a lift's ramp is on its own line.
    """
    done = [(count, entry) for count, entry in sets if count]
    work_s = sum(count * entry.dosage.set_seconds + once_seconds(entry) for count, entry in done)
    jumps_s = sum(entry.dosage.ramp_seconds for _, entry in done if entry.movement.jump is not None)
    return math.ceil((60 * warm_up_minutes + work_s) / 60), warm_up_minutes + jumps_s // 60


def _place(problem: Problem, shape: Shape, entry: Entry) -> tuple[int, int, str]:
    """The shape's order, with the most intense jumps first within a part, after those that build up to them."""
    part = home(shape, entry.movement)
    position = shape.parts.index(part) if part is not None else len(shape.parts)
    tier = entry.movement.jump.tier if entry.movement.jump else None
    intensity = -TIERS.index(tier) if tier is not None and entry.movement.part != "landing" else 0
    return position, -len(TIERS) if builds_up(problem, entry.movement) else intensity, entry.movement.id


def item_of(problem: Problem, entry: Entry, sets: int, item_id: str) -> Item:
    """The line of the card for these sets, with the load of its week."""
    movement, dosage = entry.movement, entry.dosage
    load = prescribe(problem, movement, dosage, entry.week)
    jump, sprint = movement.jump, movement.sprint
    return Item(
        id=item_id,
        part=movement.part,
        movement=movement.id,
        name=movement.name,
        side=side_of(movement, problem.athlete.take_off),
        sets=sets,
        extra_set=dosage.extra.leg if dosage.extra and sets else None,
        reps=load.reps if dosage.hold_s is None else None,
        load_kg=load.load_kg,
        implement=movement.dose.implement if movement.dose.load != "none" else None,
        percent=load.percent,
        percent_with_body=_counts_body(problem, movement, load.percent),
        reps_in_reserve=load.reserve if jump is None and sprint is None else None,
        distance_m=sprint.distance if sprint else None,
        fly_in_m=(sprint.fly_in or None) if sprint else None,
        height_m=jump.height if jump else None,
        height_of=_obstacle(movement),
        drop_m=jump.drop if jump else None,
        hold_s=dosage.hold_s,
        rest_s=round(movement.dose.rest),
        contacts=sets * dosage.contacts,
        tier=dosage.tier if dosage.contacts else None,
        cues=movement.cues,
        cautions=movement.cautions,
        note=f"not this week: {entry.barred}" if not sets and entry.barred else load.note,
    )


def _counts_body(problem: Problem, movement: Movement, percent: float | None) -> bool:
    """Whether the percentage is of load and body together; a template of an earlier release does not say it."""
    return percent is not None and movement.dose.body_mass_share > 0 and problem.template.progress is not None


def _obstacle(movement: Movement) -> Literal["box", "hurdle"] | None:
    """What a jump's height is the height of, judging by its equipment."""
    if movement.jump is None or movement.jump.height is None:
        return None
    return "hurdle" if "hurdles" in movement.equipment else "box" if "box" in movement.equipment else None


def _test_session(problem: Problem, week: int, slot: int, number: int) -> Session:
    (entry,) = problem.entries[week, slot]
    plan, session_id = problem.template.test_day, f"w{week}s{number}"
    practice = item_of(problem, entry, plan.practice_jumps, f"{session_id}i1")
    counted = item_of(problem, entry, plan.counted_jumps, f"{session_id}i2")
    items = (
        practice.model_copy(update={"part": "test", "note": "practice, easy to full"}),
        counted.model_copy(update={"part": "test", "note": "counted; write down every one, all of them count"}),
    )
    return Session(
        id=session_id,
        date=problem.dates[week, slot],
        minutes=_test_minutes(problem, slot),
        hard_day=False,
        why="The test that closes the block: same warm-up, method and time of day as the first one.",
        focus=TEST_FOCUS,
        title=TEST_TITLE,
        warm_up_minutes=test_warm_up_minutes(problem.template),
        items=tuple(item for item in items if item.sets),
    )


def _test_minutes(problem: Problem, slot: int) -> int:
    """The template's time with measuring and talking, or the day's own where that is shorter: the jumps fit in it."""
    there = next(one.gym_minutes for one in problem.slots if one.number == slot)
    return min(problem.template.test_day.minutes, there)


def totals(problem: Problem, week: Week) -> Totals:
    """The week's totals, counted from its items as the audit counts them; joint stress includes the week's sport."""
    counted = count_week(week, problem)
    sport = {joint: problem.sport_units(week.start, 7, joint) / STRESS_UNITS_PER_POINT for joint in JOINTS}
    return Totals(
        working_sets={quality: counted.quality_sets(quality) for quality in LIFT_QUALITIES},
        contacts={tier: counted.tier_contacts(tier) for tier in TIERS},
        sprint_efforts=counted.sprint_efforts,
        sprint_m=counted.sprint_m,
        joint_stress={
            joint: LegPoints(**{leg: round(counted.stress(joint, leg) + sport[joint], 2) for leg in LEGS})
            for joint in JOINTS
        },
    )


def _bands(problem: Problem, number: int) -> Bands:
    bands = problem.bands[number]
    return Bands(
        working_sets={q: Band(low=band.low / 4, high=band.high / 4) for q, band in bands.quarter_sets.items()},
        contacts=Band(low=bands.contacts.low, high=bands.contacts.high),
        tiers={tier: Band(low=band.low, high=band.high) for tier, band in bands.tiers.items()},
        sprint_efforts=Band(low=bands.sprints.low, high=bands.sprints.high),
        joint_stress={
            joint: round(min(problem.ceilings[joint, leg].week for leg in LEGS) / STRESS_UNITS_PER_POINT, 2)
            for joint in JOINTS
        },
    )
