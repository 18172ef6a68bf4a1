"""Joint stress of a session, of two days in a row and of a week stays under its ceilings, on each joint and leg."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import JOINT_NAMES, Joint, Leg
from planner.problem.model import STRESS_UNITS_PER_POINT, Problem, joint_legs
from planner.problem.per_set import stress_terms, week_stress_terms
from planner.problem.training_days import ONE_DAY
from planner.rules.figure_words import each_level, listed, lowered_by_pain, percent
from planner.rules.rule import Address, Blamed, Breach, Keys, Plan, Row, Rule

EPSILON_points = 1e-6
NEXT_DAY, DAY_BEFORE = "with the next day", "with the day before"  # what a two-day ceiling is about


class JointStress(Rule):
    id = "joint-stress"
    title = "Joint stress stays under its ceilings"
    says = (
        "Each joint of each leg has a ceiling in points for a session, for two days in a row and for a week; the last "
        "two include sport. Pain and a growth spurt lower them."
    )
    source = "the scheme is common practice, no source; convex weights after Edwards 2018, ESSR 46:224"
    unit = "points"
    moving_days_may_help = True
    sport_to_ease = ("no practice", "no match", "half practices", "no practices")
    row_units = STRESS_UNITS_PER_POINT

    def figures(self, template: Template) -> str:
        ceilings = [
            f"{each_level(template, lambda level: f'{level.joint_stress.session:g}')} points in a session",
            f"{each_level(template, lambda level: f'{level.joint_stress.two_days:g}')} in two days",
            f"{each_level(template, lambda level: f'{level.joint_stress.week:g}')} in a week",
        ]
        pain = lowered_by_pain(template, lambda step: step.ceiling_factor)
        youth, sport, older = template.youth, template.sport_stress, template.older
        aged = ""
        if older is not None:
            joints = listed(f"the {JOINT_NAMES[joint]}" for joint in older.joints)
            aged = f"; from {older.from_years} years on {percent(older.ceiling_factor)} are left for {joints}"
        hour = listed(f"{points:g} on {JOINT_NAMES[joint]}" for joint, points in sport.per_hour.items())
        return (
            f"At most {'; '.join(ceilings)}. Of these, {pain}; under {youth.under_years}, growth of more than "
            f"{youth.growth_cm_month:g} cm a month leaves {percent(youth.growth_factor)}{aged}. An hour of practice "
            f"counts {hour}; of a match {sport.match_factor:g} times that. {_doses(template)}"
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        for joint, leg in joint_legs():
            ceiling = problem.ceilings[joint, leg]
            for week in problem.weeks:
                for slot in problem.training_days(week):
                    terms = stress_terms(problem, week, slot, joint, leg)
                    if terms:
                        yield self.row(Address(week=week, slot=slot, joint=joint, leg=leg), terms, high=ceiling.session)
                total = week_stress_terms(problem, week, joint, leg)
                left = ceiling.week - problem.sport_units(problem.week_start(week), 7, joint)
                yield self.row(Address(week=week, joint=joint, leg=leg), total, high=max(0, left))
            yield from self._two_days(problem, joint, leg)

    def _two_days(self, problem: Problem, joint: Joint, leg: Leg) -> Iterator[Row]:
        """Each pair of days in a row with a session on one of them and sport on either, or with two sessions."""
        by_date = {problem.dates[w, slot]: (w, slot) for w in problem.weeks for slot in problem.training_days(w)}
        for first in sorted({start for date in by_date for start in (date - ONE_DAY, date)}):
            held = [by_date[day] for day in (first, first + ONE_DAY) if day in by_date]
            sport = problem.sport_units(first, 2, joint)
            if len(held) == 2 or sport:
                week, slot = held[0]
                of = NEXT_DAY if first in by_date else DAY_BEFORE
                at = Address(week=week, slot=slot, of=of, joint=joint, leg=leg)
                terms = [term for key in held for term in stress_terms(problem, *key, joint, leg)]
                yield self.row(at, terms, high=max(0, problem.ceilings[joint, leg].two_days - sport))

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """Where the ceilings are reached; and what sport takes of a week's, which no other session gives back."""
        yield from super().blamed(part)
        athlete = part.problem.athlete
        said = list(dict.fromkeys(filter(None, (_sport_takes(part.problem, row) for row in part.rows))))
        if said:
            field = ("practices",) if athlete.practices else ("matches",)
            words = f"in a week, practices and matches alone put {listed(said)}"
            yield field, f"{self.title}: {words}; fewer or shorter ones leave room for lifts, jumps and sprints"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for joint, leg in joint_legs():
            ceiling = plan.problem.ceilings[joint, leg]
            at_date = {session.date: session for week in plan.weeks for session in week.sessions}
            for session in at_date.values():
                at = session.at._replace(joint=joint, leg=leg)
                yield from self._over(at, session.where, session.stress(joint, leg), ceiling.session, "in the session")
            for week in plan.weeks:
                programmed = week.stress(joint, leg)
                sport = sport_points(plan.problem, week.week.start, 7, joint)
                if programmed > 0:
                    at, where = week.at._replace(joint=joint, leg=leg), f"week {week.number}"
                    yield from self._over(at, where, programmed + sport, ceiling.week, "in the week", sport)
            for date in sorted({*at_date, *(day - ONE_DAY for day in at_date)}):
                held = [at_date[day] for day in (date, date + ONE_DAY) if day in at_date]
                both = sum(session.stress(joint, leg) for session in held)
                sport = sport_points(plan.problem, date, 2, joint)
                if both > 0:
                    at, where = held[0].at._replace(joint=joint, leg=leg), f"{date:%a %d %b}"
                    yield from self._over(at, where, both + sport, ceiling.two_days, "in two days", sport)

    def _over(
        self, at: Address, where: str, points: float, ceiling_units: int, when: str, sport: float = 0.0
    ) -> Iterator[Breach]:
        ceiling = max(ceiling_units / STRESS_UNITS_PER_POINT, sport)
        if points > ceiling + EPSILON_points:
            sentence = f"{where}: {points:.1f} points on the {at.leg} {at.joint} {when}; the ceiling is {ceiling:.1f}"
            yield self.breach(at, sentence, points - ceiling)


def sport_points(problem: Problem, start: datetime.date, days: int, joint: Joint) -> float:
    """Joint stress of the sport on these days, counted from the fixtures' minutes."""
    sport = problem.template.sport_stress
    total = 0.0
    for offset in range(days):
        day = problem.sport.get(start + datetime.timedelta(days=offset))
        if day is not None:
            hours = (day.minutes - day.match_minutes) / 60 + sport.match_factor * day.match_minutes / 60
            total += hours * sport.per_hour.get(joint, 0.0)
    return total


def _sport_takes(problem: Problem, row: Row) -> str | None:
    """``24 points on the left knee (ceiling 43)``: for a week's row, where the week has sport."""
    joint, leg, week = row.at.joint, row.at.leg, row.at.week
    if joint is None or leg is None or week is None or row.at.slot is not None:
        return None
    sport = sport_points(problem, problem.week_start(week), 7, joint)
    ceiling = problem.ceilings[joint, leg].week / STRESS_UNITS_PER_POINT
    return f"{sport:.0f} points on the {leg} {JOINT_NAMES[joint]} (ceiling {ceiling:.0f})" if sport else None


def _doses(template: Template) -> str:
    counting = template.counting
    dose = f"{counting.contacts_per_dose} contacts, {counting.hold_s_per_dose} s of holding or "
    dose += f"{counting.sprint_m_per_dose} m of sprinting"
    return f"A working set, {dose} count {listed(map(str, counting.stress_weights))} points for tags 1, 2 and 3."
