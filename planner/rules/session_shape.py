"""Each session has one of the template's session shapes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.movement import Movement
from planner.domain.template import Shape, ShapePart, Template
from planner.domain.terms import DAYS, TIERS, Day
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.problem.training_days import Phase
from planner.problem.variable import Variable, in_key, takes_key
from planner.rules.figure_words import between, counted, listed
from planner.rules.rule import NOWHERE, Address, Breach, CountedSession, CountedWeek, Plan, Row, Rule, Term

# More movements and landings than any session could hold: the slack of a shape that a day does not take.
MOST_ITEMS, MOST_CONTACTS = 40, 1000


class SessionShape(Rule):
    id = "session-shape"
    title = "A session keeps its shape"
    says = (
        "Each training day has one of the week's session shapes, the same through the whole block until the test week; "
        "each part has as many movements as the shape says, and no jump is above its tier."
    )
    source = "common practice, no source"
    structural = True
    unit = "movements"

    def figures(self, template: Template) -> str:
        shapes = [f"{s.id} {between(*s.items)} ({s.highest_tier})" for s in template.shapes]
        most = [
            f"{counted(shape.low_contacts_only_up_to, 'contact')} in {shape.id}"
            for shape in template.shapes
            if shape.low_contacts_only_up_to is not None
        ]
        primer = f" At most {listed(most)}." if most else ""
        return f"Movements per session, and the highest tier of jump: {'; '.join(shapes)}.{primer}"

    def rows(self, problem: Problem) -> Iterator[Row]:
        yield from self._one_shape_a_day(problem)
        for phase in problem.phases:
            for slot in phase.slots:
                if problem.last_week in phase.weeks:
                    yield from self._fixed_shape(problem, phase, slot)
                else:
                    yield from self._chosen_shape(problem, phase, slot)

    def _one_shape_a_day(self, problem: Problem) -> Iterator[Row]:
        for slot in problem.slots:
            terms = [(1, takes_key(slot.number, shape)) for shape in _shape_ids(problem)]
            yield self.row(Address(slot=slot.number), terms, high=1)
        for routine in problem.routines:
            for shape in _shape_ids(problem):
                wanted = sum(1 for s in problem.shapes if s.id == shape)
                terms = [(1, takes_key(slot, shape)) for slot in routine]
                yield self.row(Address(of=shape, entry=routine[0]), terms, low=wanted, high=wanted)

    def _chosen_shape(self, problem: Problem, phase: Phase, slot: int) -> Iterator[Row]:
        shapes = {shape.id: shape for shape in problem.shapes}
        for movement in problem.movements_on(phase, slot):
            homes = [(-1, takes_key(slot, s.id)) for s in shapes.values() if home(s, movement)]
            at = Address(phase=phase.id, slot=slot, movement=movement.id)
            yield self.row(at, [(1, in_key(phase.id, slot, movement.id)), *homes], high=0)
        for shape in shapes.values():
            takes = takes_key(slot, shape.id)
            lost = all((week, slot) in problem.away for week in phase.weeks)  # a single week, say
            for at, inside, (least, most) in _counts(problem, phase, slot, shape):
                if least and not lost:
                    yield self.row(at, [*inside, (-least, takes)], low=0)
                if inside:
                    yield self.row(at, [*inside, (MOST_ITEMS - most, takes)], high=MOST_ITEMS)
            yield from self._primer(problem, phase, slot, shape, takes)

    def _fixed_shape(self, problem: Problem, phase: Phase, slot: int) -> Iterator[Row]:
        shape = problem.test_week_shapes.get(slot)
        for m in problem.movements_on(phase, slot):
            if shape is None or home(shape, m) is None:
                at = Address(phase=phase.id, slot=slot, movement=m.id)
                yield self.row(at, [(1, in_key(phase.id, slot, m.id))], high=0)
        if shape is not None:
            for at, inside, (least, most) in _counts(problem, phase, slot, shape):
                yield self.row(at, inside, low=least, high=most)
            yield from self._primer(problem, phase, slot, shape, None)

    def _primer(self, problem: Problem, phase: Phase, slot: int, shape: Shape, takes: Variable | None) -> Iterator[Row]:
        """The contacts of a primer, week by week; ``takes``: asked only when the day takes the shape."""
        most = shape.low_contacts_only_up_to
        if most is None:
            return
        for week in phase.weeks:
            at = Address(week=week, slot=slot, of=f"contacts of {shape.id}")
            terms = problem.session_terms(week, slot, contacts)
            if takes is None:
                yield self.row(at, terms, high=most)
            else:
                yield self.row(at, [*terms, (MOST_CONTACTS - most, takes)], high=MOST_CONTACTS)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        yield from self._audit_days(plan)
        yield from self._audit_test_week(plan)
        for phase in plan.problem.phases:
            for sessions in _by_day(plan, phase.weeks):
                yield from self._audit_day(plan.problem, sessions)

    def _audit_days(self, plan: Plan) -> Iterator[Breach]:
        """Before the test week, a weekday keeps its shape and each shape has as many days as the template gives it."""
        by_routine: dict[tuple[int, ...], list[CountedWeek]] = {}
        for week in plan.weeks:
            if week.number != plan.problem.last_week:
                by_routine.setdefault(plan.problem.slots_of(week.number), []).append(week)
        for weeks in by_routine.values():
            yield from self._audit_routine(plan, weeks)

    def _audit_routine(self, plan: Plan, weeks: list[CountedWeek]) -> Iterator[Breach]:
        taken: dict[Day, str] = {}
        for week in weeks:
            for session in week.sessions:
                day, focus = _day(plan, week.number, session), session.session.focus
                if taken.setdefault(day, focus) != focus:
                    sentence = f"{session.where} has the shape '{focus}'; {day} has '{taken[day]}' in the whole block"
                    yield self.breach(session.at, sentence, 1)
        if any(plan.problem.is_past(weeks[0].number, slot) for slot in plan.problem.slots_of(weeks[0].number)):
            return  # a routine that has begun is as the past has it
        for shape in _shape_ids(plan.problem):
            wanted = sum(1 for s in plan.problem.shapes if s.id == shape)
            days = sum(1 for focus in taken.values() if focus == shape)
            if days != wanted and not (days < wanted and _loses_a_day(plan, weeks)):
                found = counted(days, "day")
                sentence = f"the shape '{shape}' is on {found} of the week; the template gives it {wanted}"
                yield self.breach(NOWHERE, sentence, abs(days - wanted))

    def _audit_test_week(self, plan: Plan) -> Iterator[Breach]:
        number = plan.problem.last_week
        held = {session.date: session.session.focus for session in plan.week(number).sessions if not session.is_test}
        for slot, shape in plan.problem.test_week_shapes.items():
            focus = held.get(plan.problem.dates[number, slot])
            if focus != shape.id and (focus is not None or shape.items[0]):
                date = plan.problem.dates[number, slot]
                has = f"has the shape '{focus}'" if focus else "has no session"
                sentence = f"{date:%a %d %b} {has}; the test week puts '{shape.id}' there"
                yield self.breach(Address(week=number, slot=slot), sentence, 1)

    def _audit_day(self, problem: Problem, sessions: list[CountedSession]) -> Iterator[Breach]:
        """One weekday through a phase: what it has in any of its weeks counts, as a wave may skip a week."""
        first = sessions[0]
        where, focus = first.where, first.session.focus
        shape = next((shape for shape in problem.template.shapes if shape.id == focus), None)
        if shape is None:
            yield self.breach(first.at, f"{where} has no shape '{focus}'", 1)
            return
        held = {item.movement.id: item for session in sessions for item in session.items}
        parts = [home(shape, item.movement) for item in held.values()]
        for item, part in zip(held.values(), parts, strict=True):
            if part is None:
                yield self.breach(first.at_item(item), f"{item.name} does not belong in '{shape.name}' ({where})", 1)
        yield from self._outside(first, shape, "in all", len(held), *shape.items)
        for part in shape.parts:
            count = sum(1 for other in parts if other is part)
            yield from self._outside(first, shape, f"in {part.part}", count, *part.items)
        limit = shape.low_contacts_only_up_to
        for session in sessions:
            if limit is not None and session.contacts > limit:
                sentence = f"{session.where} has {session.contacts} contacts; a primer takes at most {limit}"
                yield self.breach(session.at, sentence, session.contacts - limit)

    def _outside(
        self, session: CountedSession, shape: Shape, what: str, count: int, least: int, most: int
    ) -> Iterator[Breach]:
        if not least <= count <= most:
            found = counted(count, "movement")
            sentence = f"{session.where} has {found} {what}; '{shape.name}' takes {least} to {most}"
            yield self.breach(session.at, sentence, max(least - count, count - most))


def _loses_a_day(plan: Plan, weeks: list[CountedWeek]) -> bool:
    """Whether a day of the routine is away in all its weeks, as in a week of its own."""
    problem = plan.problem
    slots = problem.slots_of(weeks[0].number)
    return any(all((week.number, slot) in problem.away for week in weeks) for slot in slots)


def _day(plan: Plan, week: int, session: CountedSession) -> Day:
    """The day of the weekly routine that the session takes, which a coach may have put on another weekday."""
    slot = plan.problem.slot_on(week, session.date)
    return next((s.day for s in plan.problem.slots if s.number == slot), DAYS[session.date.weekday()])


def _by_day(plan: Plan, weeks: tuple[int, ...]) -> list[list[CountedSession]]:
    """The sessions of these weeks by weekday, without the closing test."""
    found: dict[int, list[CountedSession]] = {}
    for number in weeks:
        for session in plan.week(number).sessions:
            if not session.is_test:
                found.setdefault(session.date.weekday(), []).append(session)
    return list(found.values())


def home(shape: Shape, movement: Movement) -> ShapePart | None:
    """The part of the shape that takes the movement, if any: part and pattern fit, and its tier is low enough."""
    if movement.jump is not None and TIERS.index(movement.jump.tier) > TIERS.index(shape.highest_tier):
        return None
    for part in shape.parts:
        if part.part == movement.part and (not part.patterns or set(part.patterns) & set(movement.patterns)):
            return part
    return None


def _counts(
    problem: Problem, phase: Phase, slot: int, shape: Shape
) -> Iterator[tuple[Address, list[Term], Sequence[int]]]:
    """The movements of each part of a shape, then of all of it, as terms, with the least and the most of them."""
    movements, at = problem.movements_on(phase, slot), Address(phase=phase.id, slot=slot, of=shape.id)
    for index, part in enumerate(shape.parts):
        inside: list[Term] = [(1, in_key(phase.id, slot, m.id)) for m in movements if home(shape, m) is part]
        yield at._replace(entry=index), inside, part.items
    yield at, [(1, in_key(phase.id, slot, m.id)) for m in movements], shape.items


def _shape_ids(problem: Problem) -> list[str]:
    return list(dict.fromkeys(shape.id for shape in problem.shapes))
