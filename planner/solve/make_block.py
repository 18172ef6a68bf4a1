"""A solution becomes the block: weeks, gap, proof, shortfalls in words, cautions, and where the inputs come from."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

import planner
from planner.domain.block import HISTORY, Block, Edit, Revision, Shortfall, Week
from planner.domain.block_parts import Reference
from planner.domain.gap_record import Gap
from planner.domain.template_limits import Youth
from planner.domain.terms import LOAD_ROLES
from planner.files.digest import plan_digest
from planner.prescription.athlete_line import athlete_line, joint_in_words, pain_caution
from planner.problem.ceilings import growth_factor, growth_of
from planner.problem.high_tier import closed_words
from planner.problem.model import Problem
from planner.rules.as_done import judge
from planner.rules.forced import Forced
from planner.rules.registry import all_rules, forced_rows, rules_version
from planner.rules.rule import Breach
from planner.solve.cp_model import SEED
from planner.solve.extract import after_the_past, extract_weeks
from planner.solve.session_reason import unsure_of
from planner.solve.stages import Solution


@dataclass(frozen=True)
class References:
    """Where the inputs are, relative to the block, with their digests."""

    athlete: Reference
    library: Reference
    template: Reference
    benchmarks: Reference


class BrokenBlock(Exception):
    """A new block breaks a hard rule: the rule's rows and audit disagree, which is a bug of ours."""

    def __init__(self, breaches: Sequence[Breach]) -> None:
        said = "; ".join(f"[{breach.rule}] {breach.sentence}" for breach in breaches)
        super().__init__(f"the new block breaks a hard rule: {said}")


def make_block(
    solution: Solution, gap: Gap, references: References, old: Block | None = None, revision: Revision | None = None
) -> Block:
    """The block that is written and printed. Its shortfalls are what the audits of the soft rules find.

    ``old``, ``revision``: the running block of which this is the rest, and what it starts from.
    """
    problem = solution.problem
    weeks = extract_weeks(problem, solution.values, unsure_of(problem, gap))
    if old is not None:
        weeks = after_the_past(old, weeks, problem)
    block = Block(
        file="block/1",
        id=block_id(problem),
        athlete=references.athlete,
        library=references.library,
        template=references.template,
        benchmarks=references.benchmarks,
        made_with=f"jumpblock {planner.__version__}",
        rules_version=rules_version(),
        seed=SEED,
        deterministic_time=solution.deterministic_time,
        plan_sha256="",
        for_athlete=athlete_line(problem.athlete, problem.library),
        template_name=problem.template.name,
        gap=gap,
        proof=solution.proof,
        shortfalls=(),
        cautions=(*_cautions(problem), *_days_without(problem, weeks)),
        weeks=weeks,
        revision=revision,
        before=problem.before,
        edits=() if old is None else _edits(old, weeks),
    )
    if old is not None and revision is not None:
        block = _with_forced(block, old, revision, solution)
    remarks = [breach.sentence for breach in _of_hard_rules(block, problem) if not breach.hard]  # allowed, but telling
    cautions = (*block.cautions, *(f"{remark[0].upper()}{remark[1:]}." for remark in remarks))
    missed = judge(block, problem, [rule for rule in all_rules() if not rule.hard])
    block = block.model_copy(update={"shortfalls": tuple(map(shortfall, missed)), "cautions": cautions})
    return block.model_copy(update={"plan_sha256": plan_digest(block)})


def _edits(old: Block, weeks: Sequence[Week]) -> tuple[Edit, ...]:
    """The old block's edits, with the ids that their sessions have now."""
    dates = {session.id: session.date for session in old.sessions}
    now = {session.date: session.id for week in weeks for session in week.sessions}
    ids = {name: now.get(date, name) for name, date in dates.items()}
    return tuple(edit.model_copy(update={"session": ids.get(edit.session, edit.session)}) for edit in old.edits)


def _with_forced(block: Block, old: Block, revision: Revision, solution: Solution) -> Block:
    """The block that says which hard rules its past, or a coach's own edits, leave no way to keep."""
    forced = Forced(forced_rows(solution.problem, solution.values), block, solution.problem)
    own = {(b.rule, b.sentence) for b in _of_hard_rules(old, solution.problem)} if block.edits else set()
    found = [breach for breach in _of_hard_rules(block, solution.problem) if breach.hard]
    broken = [breach for breach in found if forced.excuses(breach) or (breach.rule, breach.sentence) in own]
    told = revision.model_copy(update={"forced": tuple(map(shortfall, broken))})
    return block.model_copy(update={"revision": told})


def shortfall(breach: Breach) -> Shortfall:
    where = f"week {breach.at.week}"
    return Shortfall(rule=breach.rule, where=where, amount=breach.amount, unit=breach.unit, sentence=breach.sentence)


def refuse_broken(block: Block, problem: Problem) -> None:
    """Raises BrokenBlock if the audit of a hard rule refuses the block."""
    broken = [breach for breach in _of_hard_rules(block, problem) if breach.hard]
    if broken:
        raise BrokenBlock(broken)


def _of_hard_rules(block: Block, problem: Problem) -> list[Breach]:
    return judge(block, problem, [rule for rule in all_rules() if rule.hard])


def block_id(problem: Problem) -> str:
    """An id that no other athlete, template or start has; the calendar's events are known by it."""
    plain = unicodedata.normalize("NFKD", problem.athlete.name).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-") or "athlete"
    # Names in other scripts leave no letters, and two athletes may share a name: their calendars must not.
    person = f"{problem.athlete.name}\n{problem.athlete.birth_date.isoformat()}"
    return f"{name}-{problem.template.id}-{problem.start.isoformat()}-{hashlib.sha256(person.encode()).hexdigest()[:8]}"


IN_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def _growth_not_judged(problem: Problem) -> list[str]:
    youth, athlete = problem.template.youth, problem.athlete
    minor = athlete.age_years(problem.start) < youth.under_years
    if not minor or growth_of(athlete.stature_records, youth) is not None:
        return []
    return [
        f"Growth is not judged: it takes {youth.growth_readings} statures within {youth.growth_weeks} weeks, about "
        f"{_weeks_apart(youth)} weeks apart."
    ]


def _weeks_apart(youth: Youth) -> str:
    weeks = max(1, youth.growth_weeks // youth.growth_readings)
    return IN_WORDS[weeks - 1] if weeks <= len(IN_WORDS) else str(weeks)


def _days_without(problem: Problem, weeks: Sequence[Week]) -> list[str]:
    """Training days of load weeks that have no session, though the athlete is there: by weekday, with their weeks."""
    empty: dict[str, list[str]] = {}
    for week in weeks:
        held = {session.date for session in week.sessions}
        for slot in problem.training_days(week.number):
            date = problem.dates[week.number, slot]
            if week.role in LOAD_ROLES and date not in held and not problem.is_past(week.number, slot):
                empty.setdefault(f"{date:%A}", []).append(str(week.number))
    return [
        f"No session on {day} in week{'' if len(numbers) == 1 else 's'} {', '.join(numbers)}: the work is on the other "
        "days."
        for day, numbers in empty.items()
    ]


def _cautions(problem: Problem) -> tuple[str, ...]:
    """The template's cautions, and those that this athlete's file calls for."""
    found = list(problem.template.cautions)
    if problem.youth:
        found.append("Planned under the limits for youth and novices: two jump days, no drop jumps, no high tier.")
    closed = closed_words(problem.gate, problem.athlete)
    found += [closed] if closed else []
    if growth_factor(problem.athlete, problem.template.youth) < 1 and problem.youth:
        again = f"Measure stature again in {_weeks_apart(problem.template.youth)} weeks."
        found.append(f"Growing fast: joint-stress ceilings are lowered. {again}")
    found += _growth_not_judged(problem)
    for state in problem.athlete.joints:
        where = joint_in_words(state.joint, state.side)
        if state.pain:
            found.append(pain_caution(where, state.pain))
        elif state.history:
            found.append(f"{HISTORY}{where}: {state.history}.")
    for allowance in problem.athlete.allow:
        what = allowance.rule or allowance.movement
        found.append(f"Allowed by the coach on {allowance.date}: {what} ({allowance.reason}).")
    return tuple(found)
