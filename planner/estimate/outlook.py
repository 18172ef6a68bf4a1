"""What a block may bring, as a range from published gains, and how many blocks the gap may take."""

from __future__ import annotations

import math

from planner.domain.gap_record import OutlookLine
from planner.domain.test_kinds import OutlookRule
from planner.estimate.words import Words
from planner.units import counted


def share_after(rule: OutlookRule, training_years: float | None) -> float:
    """The share of the published gains left after these years of training; all of them where the years are unknown."""
    steps = rule.by_training_years if training_years is not None else ()
    fits = (step.share for step in steps if step.up_to_years is None or (training_years or 0.0) <= step.up_to_years)
    return next(fits, 1.0)


def outlook_of(*, rise_now_m: float, gain_wanted_m: float, rule: OutlookRule, share: float = 1.0) -> OutlookLine:
    """Gains are shares of the present rise; ``share`` of them is expected. The fewest blocks assume the highest gain.

    The most blocks assume the lowest. Later blocks usually bring less than the first, so the count is "at best".
    """
    shares = [share * gain.percent / 100.0 for gain in rule.gains]
    low_m, high_m = rise_now_m * min(shares), rise_now_m * max(shares)
    few, many = (_blocks(gain_wanted_m, gain_m) for gain_m in (high_m, low_m))
    if few is None or few > rule.most_blocks:
        few = many = None
    return OutlookLine(low_m=low_m, high_m=high_m, blocks_low=few, blocks_high=many)


def _blocks(wanted_m: float, gain_m: float) -> int | None:
    return max(1, math.ceil(wanted_m / gain_m - 1e-9)) if wanted_m > 0 and gain_m > 0 else None


def outlook_words(
    outlook: OutlookLine, wanted_m: float, rule: OutlookRule, words: Words, *, training_years: float | None = None
) -> str:
    """One or two sentences for the page. ``training_years``: where the outlook follows them."""
    low, high = words.length_number(outlook.low_m), words.length(outlook.high_m)
    a_block = f"A block has brought groups {low} to {high} at this height (published means)"
    if training_years is not None and rule.by_training_years:
        years = counted(training_years, "year")
        left = f"{100 * share_after(rule, training_years):.0f} % of the published means"
        a_block = f"After {years} of training a block may bring {low} to {high} at this height ({left})"
    if wanted_m <= 0:
        return f"{a_block}; this target asks for none."
    if outlook.blocks_low is None:
        return f"{a_block}: this gap is more than {rule.most_blocks} blocks; set a nearer mark first."
    if outlook.blocks_high is None or outlook.blocks_high > 2 * rule.most_blocks:
        count = f"{outlook.blocks_low} blocks or many more"
    elif outlook.blocks_low == outlook.blocks_high:
        count = f"about {outlook.blocks_low} block{'s' if outlook.blocks_low > 1 else ''}"
    else:
        count = f"about {outlook.blocks_low} to {outlook.blocks_high} blocks"
    closes = wanted_m <= outlook.high_m
    promise = "One block may close it; none is promised to." if closes else "This block does not close it."
    return f"{a_block}: the gap is {count} at best, later ones bring less. {promise}"
