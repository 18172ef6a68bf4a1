"""Random lives: a drawn athlete trains a drawn block with drawn events, and the rest is planned anew a few times.

Each time the past must be the same text, no hard rule may be broken by what is still to come, an own count of what was
done must agree with the audit's, and a refusal must be true and minimal by HiGHS.
Run: python -m tests.independence.lives --seeds 0:1000 --kept lives.jsonl
"""

from __future__ import annotations

import argparse
import datetime
import json
import random
import time
import traceback
from collections import Counter
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path

from planner.audit import audit
from planner.domain.athlete import Athlete, JointState
from planner.domain.block import Block, PastItem, PastSession, Revision, Session
from planner.domain.findings import UserError
from planner.domain.gap_record import Gap
from planner.domain.terms import DAYS
from planner.domain.training_log import OtherWork
from planner.files.dump import block_to_yaml
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.model import RETEST, Problem
from planner.problem.revised import routines_of, since_of
from planner.rules.as_done import as_done
from planner.rules.recount import count_block
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.make_block import refuse_broken
from planner.solve.past import with_past
from tests.independence.drawn import drawn
from tests.independence.outcomes import of_refusal
from tests.revise.rest import Rest, rest_of_problem
from tests.solve.demos import SOMEWHERE, solve_for

BUDGET = 15.0  # of the first plan, in deterministic seconds
MISSED, PARTLY = 0.15, 0.2  # of the sessions
LATE = 0.05  # of the sessions that an earlier revision took as planned, that a note says more of by the next
LOADS_OFF = 0.15  # the most that a maximum is off, up or down
OTHER_LOADS, OTHER_WORK = 0.3, 0.3  # of the revisions
TRAVEL = 0.5  # of the missed ones, that the next is missed too


@dataclass
class Life:
    """What became of a seed: how each revision ended, what was wrong, and seconds of the processor."""

    seed: int
    about: str
    ends: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    unsure: list[str] = field(default_factory=list)
    seconds: float = 0.0


def live(seed: int) -> Life:
    start, draw, life = time.process_time(), random.Random(f"life {seed}"), Life(seed, drawn(seed).about)
    try:
        _live(seed, draw, life)
    except Exception:  # a fault of ours: one seed must not end the run
        life.faults.append(traceback.format_exc(limit=-3))
    life.seconds = round(time.process_time() - start, 2)
    return life


def _live(seed: int, draw: random.Random, life: Life) -> None:
    inputs = drawn(seed).inputs
    try:
        demo = solve_for(inputs, budget=BUDGET)
    except (UserError, NoBlock, BudgetSpent):
        life.ends.append("no first block")
        return
    block, first_day = demo.block, demo.block.weeks[0].start
    done: dict[str, PastSession] = {}
    extra: tuple[OtherWork, ...] = ()
    for _ in range(draw.choice((2, 3))):
        last = block.weeks[-1].sessions[-1].date
        room = (last - first_day).days
        if room < 2:
            return
        first_day = max(first_day, block.weeks[0].sessions[0].date) + datetime.timedelta(days=draw.randint(1, room - 1))
        done |= {one.session: one for one in _trained(draw, block, first_day, done)}
        inputs = replace(inputs, athlete=_changed(draw, inputs.athlete, first_day, last))
        extra = (*extra, *_other_work(draw, first_day))
        revision = Revision(
            first_day=first_day,
            block=SOMEWHERE,
            routines=routines_of(block, first_day, inputs.athlete.training),
            done=tuple(done.values()),
            maxima=_maxima(draw, inputs.athlete),
            extra=extra,
        )
        rest = _revised(life, inputs, block.model_copy(update={"revision": revision}), demo.gap)
        if rest is not None:
            block = rest.new


def _revised(life: Life, inputs: Inputs, told: Block, gap: Gap) -> Rest | None:
    try:
        problem = estimate_and_problem(inputs, told.weeks[0].start, since=since_of(told))[1]
        rest = rest_of_problem(with_past(problem, told), told, gap)
    except UserError as error:
        life.ends.append("refused: " + error.findings[0].code)
        return None
    except BudgetSpent:
        life.ends.append("budget")
        return None
    except NoBlock as none:
        found = of_refusal(none.problem)
        life.ends.append("no rest: " + found.kind)
        life.faults += found.faults
        life.unsure += found.unsure
        return None
    life.ends.append("revised" if all(s.status == "optimal" for s in rest.solution.proof.stages) else "not proved")
    life.faults += [*_wrong(rest, rest.solution.problem), *_miscounted(rest, rest.solution.problem)]
    return rest


def _wrong(rest: Rest, problem: Problem) -> list[str]:
    refuse_broken(rest.new, problem)
    faults = [f"broken: {one.sentence}" for one in audit(rest.new, problem) if one.hard]
    first_day = problem.first_day
    if _text(rest.told, first_day) != _text(rest.new, first_day):
        faults.append("the past is another text")
    return faults


def _text(block: Block, first_day: datetime.date) -> str:
    """The sessions before the day, as the file has them."""
    weeks = tuple(
        week.model_copy(update={"sessions": tuple(s for s in week.sessions if s.date < first_day)})
        for week in block.weeks
    )
    text = block_to_yaml(block.model_copy(update={"weeks": weeks}))
    return "".join(part.split("  - number:")[0] for part in text.split("      - id: ")[1:])


def _miscounted(rest: Rest, problem: Problem) -> list[str]:
    """Sets and landings of each week of the past, by what was drawn and by the audit's own counting."""
    told = {one.session: one for one in rest.new.revision.done} if rest.new.revision else {}
    faults = []
    for counted in count_block(as_done(rest.new, problem), problem).weeks:
        week = next(week for week in rest.new.weeks if week.number == counted.number)
        own = [_own_count(session, told.get(session.id), problem) for session in week.sessions]
        if (sets := sum(one for one, _ in own)) != counted.working_sets:
            faults.append(f"week {week.number}: {sets} sets by the log, {counted.working_sets} by the audit")
        if (contacts := sum(one for _, one in own)) != counted.contacts:
            faults.append(f"week {week.number}: {contacts} landings by the log, {counted.contacts} by the audit")
    return faults


def _own_count(session: Session, told: PastSession | None, problem: Problem) -> tuple[int, int]:
    """Working sets and landings of a session as done."""
    if told is not None and told.missed:
        return 0, 0
    other = {one.item: one for one in told.items} if told is not None else {}
    sets = contacts = 0
    for item in session.items:
        lifts = item.movement != RETEST and problem.library[item.movement].kind in ("lift", "hold")
        one = other.get(item.id)
        sets += (one.sets if one else item.sets) if lifts else 0
        contacts += one.contacts if one else item.contacts
    return sets, contacts


def _trained(
    draw: random.Random, block: Block, first_day: datetime.date, known: dict[str, PastSession]
) -> list[PastSession]:
    """What became of the sessions before the day that nothing is known of yet, where not as planned.

    A session that an earlier revision took as planned may turn out otherwise, by a note that comes late.
    """
    since = block.revision.first_day if block.revision is not None else datetime.date.min
    found, missing = [], False
    for session in (s for s in block.sessions if s.date < first_day):
        if session.date < since and draw.random() >= LATE:
            continue
        missing = draw.random() < (TRAVEL if missing else MISSED)
        if session.id in known:
            continue
        if missing:
            found.append(PastSession(session=session.id, missed=draw.choice(("ill", "pain", "match", "travel"))))
        elif draw.random() < PARTLY:
            found.append(PastSession(session=session.id, items=tuple(_partly(draw, session))))
    return found


def _partly(draw: random.Random, session: Session) -> list[PastItem]:
    """Some items with a set less or more, or left out."""
    found = []
    for item in session.items:
        if item.movement != RETEST and item.sets and draw.random() < 0.3:
            sets = draw.choice((0, max(0, item.sets - 1), item.sets + 1))
            found.append(PastItem(item=item.id, sets=sets, contacts=sets * (item.contacts // item.sets)))
    return found


def _changed(draw: random.Random, athlete: Athlete, first_day: datetime.date, last: datetime.date) -> Athlete:
    """One event: pain, a day away, a match more or moved, equipment gone, another training day, or nothing."""
    event = draw.choice(("nothing", "pain", "away", "match", "equipment", "days"))
    date = first_day + datetime.timedelta(days=draw.randint(0, max(0, (last - first_day).days - 1)))
    if event == "pain":
        state = JointState(joint=draw.choice(("patellar-knee", "achilles-ankle", "low-back")), pain=draw.randint(0, 4))
        others = tuple(one for one in athlete.joints if one.joint != state.joint)
        return athlete.model_copy(update={"joints": (*others, state)})
    if event == "away" and date < last:
        away = (*athlete.training.away, date)
        return athlete.model_copy(update={"training": athlete.training.model_copy(update={"away": away})})
    if event == "match" and athlete.matches:  # one more, or the one there is on another day
        match = athlete.matches[0].model_copy(update={"day": None, "date": date})
        others = athlete.matches if draw.random() < 0.5 else athlete.matches[1:]
        return athlete.model_copy(update={"matches": (*others, match)})
    if event == "days":
        return _on_another_day(draw, athlete)
    if event == "equipment" and athlete.equipment.items:
        lost = draw.choice(athlete.equipment.items)
        items = tuple(item for item in athlete.equipment.items if item != lost)
        return athlete.model_copy(update={"equipment": athlete.equipment.model_copy(update={"items": items})})
    return athlete


def _on_another_day(draw: random.Random, athlete: Athlete) -> Athlete:
    """One of the training days becomes another weekday."""
    days = list(athlete.training.days)
    free = [day for day in DAYS if day not in {one.day for one in days}]
    at = draw.randrange(len(days))
    days[at] = days[at].model_copy(update={"day": draw.choice(free)})
    days.sort(key=lambda one: DAYS.index(one.day))
    return athlete.model_copy(update={"training": athlete.training.model_copy(update={"days": tuple(days)})})


def _maxima(draw: random.Random, athlete: Athlete) -> dict[str, float]:
    """Tested maxima as a log may have them, as shares of those tested."""
    lifts = sorted({test.movement for test in athlete.tests if test.kind == "lift"})
    if draw.random() >= OTHER_LOADS:
        return {}
    return {lift: round(1 + draw.uniform(-LOADS_OFF, LOADS_OFF), 3) for lift in lifts}


def _other_work(draw: random.Random, first_day: datetime.date) -> tuple[OtherWork, ...]:
    """Work outside the block in the days before."""
    if draw.random() >= OTHER_WORK:
        return ()
    date = first_day - datetime.timedelta(days=draw.randint(1, 4))
    return (OtherWork(date=date, what="a match", minutes=draw.choice((20, 60)), contacts=draw.choice((0, 40))),)


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--seeds", default="0:20", help="from:to")
    options.add_argument("--kept", type=Path, default=Path("lives.jsonl"))
    asked = options.parse_args()
    first, last = map(int, asked.seeds.split(":"))
    known = [Life(**json.loads(line)) for line in asked.kept.read_text().splitlines()] if asked.kept.exists() else []
    done = {life.seed: life for life in known}
    with asked.kept.open("a", encoding="utf-8") as file:
        for seed in range(first, last):
            if seed not in done:
                done[seed] = live(seed)
                file.write(json.dumps(asdict(done[seed])) + "\n")
                file.flush()
    lives = [done[seed] for seed in range(first, last)]
    print(f"{len(lives)} lives, {sum(life.seconds for life in lives):.0f} s of this processor")
    for end, count in Counter(end for life in lives for end in life.ends).most_common():
        print(f"  {count:5d} {end}")
    print(f"  {sum(len(life.unsure) for life in lives)} questions that HiGHS did not answer in its time")
    faulty = [life for life in lives if life.faults]
    print(f"  {len(faulty)} lives with a fault")
    for life in faulty[:20]:
        print(f"  seed {life.seed}: {life.faults[0]}")


if __name__ == "__main__":
    main()
