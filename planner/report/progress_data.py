"""Progress as plain figures for ``--json``: kilograms, metres, percent, sets, contacts and points."""

from __future__ import annotations

from typing import Any

from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, TIERS
from planner.past.jump_days import are_low
from planner.report.advice_text import advice_line
from planner.report.followed import Followed, WeekDone
from planner.rules.recount import CountedWeek

Data = dict[str, Any]


def progress_data(followed: Followed) -> Data:
    """What ``progress_text`` says, in full."""
    return {
        "athlete": followed.block.for_athlete.name,
        "through": str(followed.through),
        "sessions": [
            {"session": one.planned.id, "date": str(one.date), "done": one.entry.done, "effort": one.entry.effort}
            for one in followed.done
        ],
        "without_entry": [session.id for session in followed.open_sessions],
        "weeks": [_week(one) for one in followed.weeks],
        "maxima": [
            {
                "movement": one.movement,
                "now_kg": round(one.now_kg, 1),
                "band_90_kg": [round(one.low_kg, 1), round(one.high_kg, 1)],
                "drift_percent_a_week": round(one.drift_percent_a_week, 2),
                "drift_error_percent": round(one.drift_error_percent, 2),
                "tested_kg": None if one.tested is None else round(one.tested.load_kg, 1),
                "readings": [{"date": str(day), "kg": round(kg, 1)} for day, kg in one.readings],
            }
            for one in followed.lifts
        ],
        "jump_days": [
            {
                "movement": line.movement,
                "low": are_low(line, followed.rules.jumps),
                "days": [
                    {
                        "date": str(day.date),
                        "best_m": day.best_m,
                        "jumps": day.jumps,
                        "spread_m": round(day.spread_m, 4),
                    }
                    for day in line.days
                ],
            }
            for line in followed.jumps
        ],
        "pain": [
            {
                "joint": course.joint,
                "side": course.side,
                "state": course.state,
                "step": followed.rules.pain.steps[course.step].name,
                "days": [{"date": str(day.date), "worst": day.worst, "state": day.state} for day in course.days],
            }
            for course in followed.pain
        ],
        "extra": [work.model_dump(mode="json") for work in followed.log.extra],
        "next": _next(followed),
    }


def _week(one: WeekDone) -> Data:
    return {
        "week": one.week.number,
        "whole": one.is_whole,
        "planned": {**_counted(one.planned), "minutes": one.minutes_planned},
        "done": {**_counted(one.done), "minutes": one.minutes_done},
        "session_load": {
            "total": one.load.total,
            "monotony": one.load.monotony,
            "monotony_over_six_days": one.load.monotony_sample,
            "strain": one.load.strain,
        },
    }


def _counted(week: CountedWeek) -> Data:
    return {
        "working_sets": week.working_sets,
        "sets": {quality: week.quality_sets(quality) for quality in LIFT_QUALITIES},
        "contacts": {tier: {leg: week.leg_tier_contacts(tier, leg) for leg in LEGS} for tier in TIERS},
        "sprints": week.sprint_efforts,
        "sprint_m": week.sprint_m,
        "joint_stress": {joint: {leg: round(week.stress(joint, leg), 2) for leg in LEGS} for joint in JOINTS},
    }


def _next(followed: Followed) -> Data | None:
    if not followed.coming:
        return None
    session = followed.coming[0]
    return {
        "session": session.id,
        "date": str(session.date),
        "loads": [
            {
                "item": one.item.id,
                "move": one.move,
                "load_kg": one.load_kg,
                "planned_kg": one.item.load_kg,
                "why": advice_line(one, followed.block.for_athlete),
            }
            for one in followed.load_advice(session)
        ],
    }
