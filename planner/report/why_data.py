"""Where a number comes from, as data: the chain from gap to sets, rules at their limit, the next-best movement.

Numbers carry their unit in the key. The text of ``why`` is written from these mappings and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from planner.domain.block import Block, Item, Session, Week
from planner.domain.gap_record import Gap, QualityLine
from planner.domain.movement import Movement
from planner.domain.terms import LIFT_QUALITIES
from planner.problem.high_tier import closed_words
from planner.problem.model import Problem
from planner.problem.weaker_leg import extra_leg
from planner.rules.places import place_in_words
from planner.rules.registry import rule_named
from planner.rules.rule import Row, Rule

if TYPE_CHECKING:
    from planner.solve.explain import Chain, ItemStory, MovementStory, SessionStory, Tight
    from planner.solve.next_best import Alternative

Data = dict[str, Any]


def session_data(story: SessionStory, block: Block, problem: Problem) -> Data:
    return {
        **_about("session", block),
        **_week_line(story.week),
        **_session_line(story.session),
        "gap": gap_data(block.gap),
        "chain": [chain_data(chain) for chain in story.chains],
        "items": [_item_data(item, problem) for item in story.items],
        "at_limit": limits_data(story.tight, problem),
    }


def week_data(week: Week, chains: Iterable[Chain], tight: Iterable[Tight], block: Block, problem: Problem) -> Data:
    contacts = {"all": (sum(week.totals.contacts.values()), week.bands.contacts)}
    contacts |= {tier: (week.totals.contacts.get(tier, 0), band) for tier, band in week.bands.tiers.items()}
    return {
        **_about("week", block),
        **_week_line(week),
        "gap": gap_data(block.gap),
        "chain": [chain_data(chain) for chain in chains],
        "contacts": [
            {"tier": tier, "aim_low_contacts": band.low, "aim_high_contacts": band.high, "done_contacts": done}
            for tier, (done, band) in contacts.items()
        ],
        "closed_jumps": closed_words(problem.gate, problem.athlete),
        "sessions": [_session_line(session) for session in week.sessions],
        "at_limit": limits_data(tight, problem),
    }


def movement_data(story: MovementStory, chains: Iterable[Chain], block: Block, problem: Problem) -> Data:
    """``chains``: those of the qualities that the movement trains, in the first week that has it."""
    movement = story.movement
    return {
        **_about("movement", block),
        "movement": movement.id,
        "name": movement.name,
        "in_block": [_place_data(*place) for place in story.places],
        "closed_by": [_closed_data(rule, reason) for rule, reason in story.closed],
        "trains": {quality: tag for quality, tag in movement.qualities.items() if tag},
        "patterns": list(movement.patterns),
        "joint_stress_tags": {joint: tag for joint, tag in movement.stress.items() if tag},
        "source_of_tags": movement.source,
        "preference_points": story.points,
        "chain": [chain_data(chain) for chain in chains],
        "chosen_in_its_place": None if story.chosen is None else _name_data(story.chosen),
        "next_best" if story.places else "would_cost": _alternative_data(story.cost, problem),
    }


def block_data(block: Block, tight: Iterable[Tight], problem: Problem) -> Data:
    """The story of the whole block: what the tests say, how the weeks go, what is proved, which rules bind most."""
    return {
        **_about("block", block),
        "template": block.template_name,
        "gap": gap_data(block.gap),
        "story": list(block.gap.story),
        "emphasis_factors": {line.quality: line.emphasis for line in block.gap.qualities if line.counts},
        "weeks": [_whole_week(week) for week in block.weeks],
        "proved": block.proof.status == "optimal" and block.proof.scope == "library",
        "over_or_under": [one.sentence for one in block.shortfalls],
        "at_limit": limits_data(tight, problem),
    }


def _whole_week(week: Week) -> Data:
    totals = week.totals
    return {
        **_week_line(week),
        "done_contacts": sum(totals.contacts.values()),
        "high_tier_contacts": totals.contacts.get("high", 0),
        "done_sprint_efforts": totals.sprint_efforts,
        "done_sets": {quality: totals.working_sets.get(quality, 0.0) for quality in LIFT_QUALITIES},
    }


def _about(what: str, block: Block) -> Data:
    who = block.for_athlete
    return {"about": what, "athlete": who.name, "print_as": {"mass": who.mass_unit, "length": who.length_unit}}


def gap_data(gap: Gap) -> Data:
    """The start of the chain: what the test jump says."""
    return {
        "method": gap.method,
        "contact_time_s": gap.contact_time_s,
        "rise_now_m": gap.now.rise_m,
        "rise_target_m": gap.target.rise_m,
        "mean_ground_force_now_N": gap.now.mean_ground_force_N,
        "mean_ground_force_target_N": gap.target.mean_ground_force_N,
        "force_gap_N": gap.gap.mean_ground_force_N,
        "force_gap_se_N": gap.gap.mean_ground_force_N_se,
        "inside_noise": gap.inside_noise,
    }


def chain_data(chain: Chain) -> Data:
    """One quality: have and need in ``unit``; the week's aim in sets, or in efforts for speed."""
    line, counted = chain.line, "sets" if chain.line.quality in LIFT_QUALITIES else "sprint_efforts"
    return {
        "quality": line.quality,
        "status": line.status,
        **_test_data(line),
        "other_tests": [_test_data(other) for other in chain.others],
        "emphasis_factor": line.emphasis,
        "template_sets": chain.untilted_sets,
        f"aim_low_{counted}": chain.band_low,
        f"aim_high_{counted}": chain.band_high,
        f"done_{counted}": chain.got,
    }


def _test_data(line: QualityLine) -> Data:
    return {
        "side": line.side,
        "have": line.have,
        "need": line.need,
        "unit": line.unit,
        "deficit_fraction": line.deficit,
        "confidence_fraction": line.confidence,
        "source": line.source,
    }


def limits_data(tight: Iterable[Tight], problem: Problem) -> list[Data]:
    """Each rule once, with every place where one unit more (or less) would break it."""
    found: dict[str, Data] = {}
    for at in tight:
        rule = rule_named(at.row.rule)
        entry = found.setdefault(
            rule.id, {"rule": rule.id, "title": rule.title, "source": rule.source, "unit": rule.unit, "places": []}
        )
        entry["places"].append({"where": place_in_words(at.row.at, at.row.other, problem), **_limit(at, rule)})
    return list(found.values())


def _limit(at: Tight, rule: Rule) -> Data:
    """The limit that is met, if the row is a plain sum; a share of another week has no figure of its own."""
    in_words = rule.at_limit(at.row)
    plain = in_words is None and all(coefficient > 0 for coefficient, _ in at.row.terms)
    return {
        "in_words": in_words,
        "at_most": at.total / rule.row_units if plain and at.total == at.row.high else None,
        "at_least": at.total / rule.row_units if plain and at.total == at.row.low else None,
    }


def _week_line(week: Week) -> Data:
    return {"week": week.number, "phase": week.phase, "role": week.role, "starts": week.start.isoformat()}


def _session_line(session: Session) -> Data:
    return {
        "session": session.id,
        "date": session.date.isoformat(),
        "title": session.title,
        "minutes": session.minutes,
        "why_today": session.why,
    }


def _item_data(story: ItemStory, problem: Problem) -> Data:
    item, wave = story.item, story.wave
    return {
        **_dose(item),
        "extra_set_is_due": item.extra_set == extra_leg(story.movement, problem.weaker_legs),
        "wave": story.movement.dose.scheme,
        "wave_low_sets": wave.sets[0] if wave else None,
        "wave_high_sets": wave.sets[1] if wave else None,
        "own_maximum_kg": story.maximum_kg,
        "load_is_found_by": story.movement.dose.load,
        "next_best": _alternative_data(story.alternative, problem),
    }


def _dose(item: Item) -> Data:
    return {
        "movement": item.movement,
        "name": item.name,
        "sets": item.sets,
        "extra_set_leg": item.extra_set,
        "reps": item.reps,
        "hold_s": item.hold_s,
        "load_kg": item.load_kg,
        "percent": item.percent,
        "percent_with_body": item.percent_with_body,
        "note": item.note,
        "reps_in_reserve": item.reps_in_reserve,
    }


def _place_data(week: Week, session: Session, item: Item) -> Data:
    return {"week": week.number, "session": session.id, "date": session.date.isoformat(), **_dose(item)}


def _closed_data(rule_id: str, reason: str) -> Data:
    return {"rule": rule_id, "reason": reason, "source": rule_named(rule_id).source}


def _alternative_data(found: Alternative | None, problem: Problem) -> Data | None:
    """``points_more``: how much lower the template's preferences rank it. ``fits``: null if it was not settled."""
    if found is None:
        return None
    return {
        **_name_data(found.movement),
        "points_more": found.points,
        "because": list(found.because),
        "fits": found.fits,
        "would_miss": [_missed(row, units, problem) for row, units in found.missed],
    }


def _missed(row: Row, units: int, problem: Problem) -> Data:
    rule, where = rule_named(row.rule), place_in_words(row.at, row.other, problem)
    return {"rule": row.rule, "where": where, "amount": units / rule.row_units, "unit": rule.unit}


def _name_data(movement: Movement) -> Data:
    return {"movement": movement.id, "name": movement.name}
