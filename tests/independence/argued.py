"""Limits that a coach changed in a copy of a template, each now and then: rules that hold a limit come to bind."""

from __future__ import annotations

import random

from planner.domain.template import LevelPlan, Template

CHANGED = 0.14  # how often each limit is another than the shipped one


def argued_with(draw: random.Random, template: Template) -> Template:
    """The template with some limits changed, each by its own chance."""
    youth, hard_day, floors, levels = template.youth, template.hard_day, template.floors, template.levels
    if draw.random() < 2 * CHANGED:  # it binds novices and youth alone, a third of the draws
        # The lowest are under what the budget's medium tier alone aims at.
        youth = youth.model_copy(update={"contacts_week": draw.choice([16, 20, 24, 30, 45, 60])})
    if draw.random() < CHANGED:
        hard_day = hard_day.model_copy(update={"high_contacts_leg": draw.choice([4, 8])})
    if draw.random() < CHANGED:  # a floor at the middle of the band
        load = draw.choice([0.9, 1.0])
        floors = floors.model_copy(update={"contacts": {**floors.contacts, "build": load, "intensify": load}})
    if draw.random() < CHANGED:  # half of what the shipped weeks aim at in a session, or less
        least = draw.choice([16, 20, 25, 30])
        levels = {name: plan.model_copy(update={"session_contacts": least}) for name, plan in levels.items()}
    if draw.random() < CHANGED:
        levels = {name: _hardly_growing(plan) for name, plan in levels.items()}
    return template.model_copy(update={"youth": youth, "hard_day": hard_day, "floors": floors, "levels": levels})


def _hardly_growing(plan: LevelPlan) -> LevelPlan:
    """Sets and contacts of a load week as those of the last one, and a set or two more; joint stress no more."""
    steps = (("sets", 1), ("contacts", 4), ("sprints", 1), ("joint_stress", 0))
    few = {name: {"ratio": 1.0, "step": step} for name, step in steps}
    changed = {name: getattr(plan.growth, name).model_copy(update=limit) for name, limit in few.items()}
    return plan.model_copy(update={"growth": plan.growth.model_copy(update=changed)})


def with_session_share(template: Template, share: float) -> Template:
    """A ceiling on a session's contacts at this share of what each level's heaviest week aims at."""
    ceilings = {
        name: round(share * max(week.contacts for week in plan.weeks)) for name, plan in template.levels.items()
    }
    levels = {
        name: plan.model_copy(update={"session_contacts": ceilings[name]}) for name, plan in template.levels.items()
    }
    return template.model_copy(update={"levels": levels})


def with_stress_growth(template: Template, ratio: float) -> Template:
    """Joint stress of a load week at most this times the last one's."""
    levels = {}
    for name, plan in template.levels.items():
        limit = plan.growth.joint_stress.model_copy(update={"ratio": ratio, "step": 0})
        levels[name] = plan.model_copy(update={"growth": plan.growth.model_copy(update={"joint_stress": limit})})
    return template.model_copy(update={"levels": levels})


def with_tag3_cap(template: Template, contacts: int) -> Template:
    """So few landings a session, and twice as many a week, of jumps that stress a joint most."""
    caps = {"tag3_contacts_session": contacts, "tag3_contacts_week": 2 * contacts}
    levels = {
        name: plan.model_copy(update={"joint_stress": plan.joint_stress.model_copy(update=caps)})
        for name, plan in template.levels.items()
    }
    return template.model_copy(update={"levels": levels})
