"""How long the solver searches, and among how many movements: all such numbers, with what they were chosen on.

Budgets are in deterministic time (about seconds), which depends on the input and not on the clock; shares are of a
plan's budget. They decide only whether an answer is found and proved in time, never what is a right answer. Numbers
chosen on the demos alone may change after a look at the benchmarks (DEVELOPERS.md, Measured).
"""

from __future__ import annotations

# Stage 1, bands. Chosen on the ten athletes of tests/benchmarks/people.py.
DEFAULT_BUDGET = 40.0
LIKED = (1, 90)  # the shortlist a coach would prefer: movements of one kind, and in all
QUICKEST = (2, 120)  # the one for short days
FIRST_SHARE = 0.05  # of the first shortlists
QUICKEST_SHARE = 0.2  # of the first list of the quickest
BELOW_SHARE = 0.2  # from below: it says little unless it comes to the end
BEST_IN_TURNS_SHARE = 0.02  # what misses least, without relaxations: it proves most short lists. Chosen on 5010, 5022
SHORTLIST_SHARE = 0.08  # then a better block a piece at a time
SAME_CHOICE_SHARE = 0.01  # sets only, with movements and days settled
WHOLE_SHARE = 0.1  # the whole library: can all bands be met?
BEST_OF_ALL_SHARE = 0.35  # the whole library: what misses least
BOUND_SHARE = 0.1
HARD_SHARE = 0.2  # is any block possible?
ROUNDS = 2  # of adding to the shortlist what the bound uses
# Stage 1: a better block a piece at a time. Chosen on drawn athletes, seeds 712, 812, 829 and 832.
PIECE = 0.3  # the choices of one piece, all others held
PIECES_SHARE = 0.2  # of all pieces
# Mixed shortlists of a large library. Sizes chosen on seeds 20 to 23 of `growth library`, what is mixed on seed 20; on
# unseen ones see DEVELOPERS.md.
SMALL_MIX, LARGE_MIX = 64, 80
SMALL_MIX_SHARE = 0.025

# Stage 2, preferences. Chosen on 64 athletes of a drawn squad and seeds 5001 to 5020, by points and processor time.
FITTING_SHARE = 0.0075  # movements that fit, with relaxations: it settles the easy blocks
SPREADING_SHARE = 0.025  # theirs with the minutes spread
IN_TURNS_SHARE = 0.02  # the others without relaxations: better in a second than with them in six
FAR = 3.0  # times the bound: then with relaxations from the first block too, which sometimes ends far better
FAR_SHARE = 0.1
CHOICE_PIECE = 0.1  # then, with the minutes spread, the choices of one piece
CHOICE_PIECES_SHARE = 0.02  # of all pieces
CLOSING_SHARE = 0.0125  # with relaxations, where no piece is better
SETTLE_SHARE = 0.04
# Stage 3, changes from a block in use. Chosen on the demos.
NEAR_SHARE = 0.5
NEXT_BEST_BUDGET = 2.0  # for one question of `why`

# The rest of a running block, over the whole library. Chosen on the demos; they take a thousandth to a fortieth.
FIRST_REST_SHARE = 0.15  # all bands met, with the fewest changes
REST_BELOW_SHARE = 0.15  # the least shortfall, from below: pain 4 takes 0.1, and from above was far off at 0.35
REST_SHARE = 0.35  # the same from above, where that does not settle it
FEW_CHANGES_SHARE = 0.075  # the fewest changes that keep it, among few movements
CHANGES_SHARE = 0.15  # the same in the whole library, or the proof that it has no fewer

# No block: can the rows hold, and which of them cannot? Chosen on the twelve refusals in tests/conflicts/cases.
CONFLICT_BUDGET = 20.0
VERDICT_WHOLE_SHARE, VERDICT_PART_SHARE, VERDICT_WEEK_SHARE = 0.4, 0.25, 0.05  # for any one question
OTHER_SEEDS, OTHER_SEED_SHARE = 6, 0.15  # the whole once more, at last; chosen on seed 2463 of the drawn athletes
Few = tuple[int, int, bool]  # movements of one kind, movements in all, and whether the quickest ones
FEW: tuple[Few, ...] = ((1, 90, False), (2, 120, True))  # a block of these few is a block of the whole library
FEW_SHARE = 0.2  # for each of them
QUICK = 0.5  # of a question's time, for a search without relaxations before one with them
QUESTION = 3.0  # one question while a conflict is shrunk
MOST_CERTIFIED_ROWS = 20_000  # a larger linear relaxation takes longer than the search
CLOSE_BY = 0.3  # the same among a few variables
FEW_OF_ALL = 3  # a few variables: at most one in three
RECENT = 3  # a question uses this many of the last points found

# No block: which change would help? Chosen on the same refusals, and on four days of 30 to 33 minutes.
STEPS_BUDGET = 2.0  # the cheapest steps for a part
MOST_TURNS = 8
REPAIR_BUDGET, REPAIR_FEW, REPAIR_PART, REPAIR_ALL_RULES, REPAIR_WHOLE = 12.0, 0.8, 0.4, 0.7, 4.0
MINUTES_BUDGET = 0.7  # one number of minutes among few movements
FIRST_MORE_minutes, MOST_MORE_minutes = 4, 64  # a day, on top of the least needed
OTHER_WEEK_BUDGET = 6.0  # one other training week
MOST_WEEKS_TRIED = 8

# Start times of a squad's day. Chosen on drawn halls: `python -m tests.benchmarks.squad slots`.
START_TIMES = 40.0
OVERFLOWS = 20.0  # what is over where there are none
FEWEST_LEFT_OUT = 10.0  # who has to train on another day
