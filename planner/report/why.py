"""Where a number came from, as text: test, gap, emphasis, band, sets; rules at their limit; the next-best movement."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planner.domain.block import Block, Session, Week
from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.report.layout import wrap
from planner.report.places import place_in_words
from planner.rules.base import Row
from planner.rules.registry import rule_by_id

if TYPE_CHECKING:
    from planner.solve.explain import Alternative, Chain, ItemStory, SessionStory

MOST_TIGHT = 8


def session_text(story: SessionStory, problem: Problem) -> str:
    """Why one session holds what it holds."""
    session = story.session
    lines = [f"{session.date:%A %d %B %Y} ({session.id}), week {story.week.number}, {story.week.phase}: {session.why}"]
    lines += ["", "From the tests to this week's work"]
    lines += [wrap(chain_sentence(chain), "  ") for chain in story.chains]
    lines += ["", "What stands here"]
    for item in story.items:
        lines += [wrap(line, "    ") if line.startswith("    ") else f"  {line}" for line in _item_lines(item)]
    lines += ["", "Rules at their limit here", *_tight(story.tight, problem)]
    return "\n".join(lines) + "\n"


def week_text(week: Week, chains: tuple[Chain, ...], tight: list[Row], problem: Problem) -> str:
    """Why one week holds so much."""
    lines = [f"Week {week.number} from {week.start:%a %d %b %Y}: {week.phase}, {week.role}", ""]
    lines += ["From the tests to this week's work"]
    lines += [wrap(chain_sentence(chain), "  ") for chain in chains]
    lines += ["", "Rules at their limit this week", *_tight(tuple(tight), problem)]
    return "\n".join(lines) + "\n"


def movement_text(
    block: Block, problem: Problem, movement: Movement, closed: list[tuple[str, str]], points: int
) -> str:
    """Why a movement is in the block, and where; or why it is not."""
    places = list(_places(block, movement.id))
    lines = [f"{movement.name} ({movement.id})"]
    if places:
        lines += ["  in the block:", *[f"    {place}" for place in places]]
    elif closed:
        lines += [f"  closed to this athlete: it {reason} (rule {rule})" for rule, reason in closed]
    else:
        lines.append("  open to this athlete, and not chosen: others did the same work for fewer points")
    qualities = ", ".join(f"{quality} {tag}" for quality, tag in movement.qualities.items() if tag) or "none"
    stress = ", ".join(f"{joint} {tag}" for joint, tag in movement.stress.items() if tag) or "none"
    lines.append(f"  trains: {qualities}; patterns: {', '.join(movement.patterns) or 'none'}; stress: {stress}")
    lines.append(
        f"  costs {points} points a day of a phase by the template's preferences; tags after: {movement.source}"
    )
    return "\n".join(lines) + "\n"


def chain_sentence(chain: Chain) -> str:
    """test -> deficit -> emphasis -> band -> done, in one sentence."""
    line = chain.line
    if line.status == "untested" or line.have is None or line.need is None:
        said = f"{line.quality}: untested, so it keeps the template's share"
    else:
        percent = round(100 * abs(line.deficit))
        state = (
            "just enough" if percent == 0 else f"short by {percent} %" if line.deficit > 0 else f"{percent} % to spare"
        )
        said = f"{line.quality}: has {line.have:.4g} {line.unit}, needs {line.need:.4g} ({state}, confidence "
        said += f"{line.confidence:.2f}), so its share is times {line.emphasis:.2f}"
    plain = f" of the template's {chain.untilted_sets:g} sets" if chain.untilted_sets is not None else ""
    said += f"{plain}; after days, minutes, growth and sport this week aims at {chain.band_low:g} to "
    return f"{said}{chain.band_high:g} {chain.unit} and holds {chain.got:g}."


def _item_lines(story: ItemStory) -> Iterator[str]:
    item, movement = story.item, story.movement
    yield f"{item.name}: {_sets(item.sets)}, by the wave {story.wave}"
    if story.maximum_kg is not None and item.load_kg is not None:
        yield (
            f"    {item.load_kg:g} kg is {item.percent:g} % of the {story.maximum_kg:.0f} kg that the tests show, "
            "to the nearest load the gym has"
        )
    elif movement.dose.load != "none":
        yield "    no test of its reference lift: the athlete finds the load by the reserve"
    yield f"    {_rival(story.alternative)}"


def _rival(rival: Alternative | None) -> str:
    if rival is None:
        return "next best: nothing else of its kind is open to this athlete"
    fits = {
        True: "every band would still be met",
        False: "a band or a rule would be missed",
        None: "not tried to the end",
    }
    liking = f"{rival.points} points worse" if rival.points > 0 else "no worse by its points"
    return f"next best: {rival.movement.name}, {liking}; {fits[rival.fits]}"


def _tight(rows: tuple[Row, ...], problem: Problem) -> list[str]:
    seen: dict[str, list[str]] = {}
    for row in rows:
        rule = rule_by_id(row.rule)
        if rule is not None:
            seen.setdefault(f"{rule.title} ({rule.source})", []).append(place_in_words(row.scope, problem))
    lines = []
    for title, places in seen.items():
        named = "; ".join(dict.fromkeys(places[:3])) + (f"; and {len(places) - 3} more" if len(places) > 3 else "")
        lines.append(wrap(f"{title}: {named}", "  "))
    return lines[:MOST_TIGHT] or ["  none"]


def _places(block: Block, movement: str) -> Iterator[str]:
    for week in block.weeks:
        for session in week.sessions:
            for item in session.items:
                if item.movement == movement:
                    yield f"week {week.number}, {_day(session)}: {_sets(item.sets)}"


def _sets(count: int) -> str:
    return "1 set" if count == 1 else f"{count} sets"


def _day(session: Session) -> str:
    return f"{session.date:%a}"
