"""What each field of a card layout means; see schema_words for how the lines are read."""

from __future__ import annotations

CARD_LAYOUT = """
CardLayout:
.language: Tag of the language of the words, such as en or pt-BR.
.measures: Sizes on paper.
.easy_above: More repetitions in reserve than this are a guess; the card then says words.easy.
.ramp: The warm-up sets of the first main lift.
.days: Seven short names of weekdays, Monday first.
.months: Twelve short names of months, January first.
.parts: How each part of a session is called on the card.
.roles: How each role of a week is called.
.tiers: How each tier of contacts is called.
.qualities: How each quality is called.
.joints: How each joint is called.
.warm_up: The steps of the warm-up, by the most demanding thing in the session.
.approach_checks: What the coach ticks on a day with approach jumps; at most four.
.stop_rule: When pain means stop; at the foot of every card.
.test_day: How the test day is run, on its card.
.words: The fixed words of the session card.
.overview: The fixed words of the overview page.
.tests: Each kind of test on the test sheet, in the order in which a test day takes them.
.sheets: The fixed words of the sheet of movements and of the test sheet.
Measures:
.margin: White edge of the card; many printers cut off what is nearer to the edge.
.box_height: Height of the boxes to write in.
.boxes_up_to: One box a set up to so many sets, then one long box.
Ramp:
.sets: The warm-up sets, lightest first; an empty list prints none.
.near: Of the loads this near (a share of the working load) the one with the fewest plates is taken.
.round_to_kg: Step for loads that are not built of plates or dumbbells, on cards in kg.
.round_to_lb: The same on cards in lb.
RampSet:
.share: Share of the working load.
.reps: Repetitions.
.only_from: Left out where the working load is lighter than this.
WarmUpStep:
.do: What to do, as printed.
.minutes: Its usual length, minutes.
.least: Shortened to this before it is left out, minutes.
.rank: When time is short the highest rank gives way first.
.not_with: Left out where the session itself has such a part.
TestWords:
.name: Its name on the test sheet.
.record: What is written down of a trial.
.trials: Rows for so many trials.
.how: How it is taken, in a sentence.

CardWords:
.week: Before the number of the week.
.session: Before the number of the session.
.of: Between a number and how many there are.
.minutes: Behind the planned length.
.hard_day: Mark of a hard day.
.warm_up: Head of the warm-up.
.ramp: Before the warm-up sets of a lift.
.ramp_plates: The same where the plates of each side are written out.
.ramp_by_feel: In their place where the athlete finds the load.
.at: Between repetitions and load.
.each_leg: Behind the sets of what is done on each leg.
.each_side: The same for each side of the trunk.
.left: For the left leg alone.
.right: For the right leg alone.
.goes_first: Behind the weaker leg where it gets an extra set; its sets follow.
.sets: Working sets of an item.
.body_weight: In place of a load.
.load: Before a load, or over the box for one.
.load_each_hand: Where a dumbbell is held in each hand.
.load_free: Where any load or band will do.
.bar: Before the mass of the bar.
.bar_alone: Where no plate is on the bar.
.each_end: Before the plates of each end of the bar.
.nearest: Before the load that the gym can build, where it is not the one asked for.
.height: Before a height.
.drop: Before the height stepped off from.
.box: A box to jump onto.
.hurdle: A hurdle to jump over.
.in_reserve: Behind the repetitions left in reserve.
.easy: In their place where so many are left that it is a guess.
.of_max: Behind the percentage of the one-repetition maximum.
.rest: Before the rest after a set.
.contacts: Behind a number of landings.
.caution: Before the cautions of a movement.
.not_this_week: For an item that is left out on this date.
.continued: Head of a card's second part.
.card: Before the number of a card, where a session takes several.
.next_card: At the foot where the session goes on.
.this_session: Before the session's own sums.
.sprints: Behind a number of sprints.
.working_sets: Behind a number of working sets.
.this_week: Behind the sums of the week.
.session_effort: Over the box for how hard the session was.
.minutes_taken: Over the box for how long it took.
.pain_before: Over the box for pain before the session.
.pain_next_morning: Over the box for pain the morning after.
.where: Over the box for which joint and side.
.best_touch: Over the box for the day's best touch.
.notes: Over the lines for notes.
.page: Before the number of the page.

OverviewWords:
.block: Title of the page.
.weeks_from: Between the number of weeks and the first day.
.target: Before the target.
.tested_by: Before how the height was measured.
.on_the_ground: Before the time or distance in which the take-off pushes.
.take_off: Before which leg or legs jump.
.force_gap: Head of the force gap.
.now: Column of today's figures.
.gap: Column of the difference.
.gap_share: Column of the difference in percent.
.rise: Row of the rise after take-off.
.take_off_speed: Row of the speed at take-off.
.ground_force: Row of the mean ground force.
.body_weights: The same in body weights.
.one_error: What the ± and the marks in the picture mean.
.qualities: Head of the five qualities.
.have: What the tests show.
.need: What the target asks for.
.short_by: Behind what is missing.
.enough: Where nothing is missing.
.confidence: How sure that is.
.emphasis: What it does to the share of the work.
.untested: Where no test was done.
.next_test: Before the test that would tell most.
.calendar: Head of the calendar.
.hard_mark: What the mark of a hard day looks like.
.dose: Head of the charts.
.how_to_read: How the charts are read.
.sets_a_week: Unit of the charts of working sets.
.contacts_a_week: Unit of the charts of landings.
.all_contacts: Title of the chart of all landings.
.sprints_a_week: Title of the chart of sprints.
.efforts: Its unit.
.stress_a_week: Behind the joint in the title of a chart of joint stress.
.points: Its unit.
.proof: Head of what was proved.
.proved: Where no other block comes closer.
.proved_shortlist: No longer printed; only for older layouts.
.not_proved: Where a better block may exist.
.edited: Where the block was edited by hand.
.not_met: Before what fell short.
.all_met: Where nothing fell short.
.cautions: Head of the cautions.
.test_day: Head of the test day.

SheetWords:
.movements: Title of the sheet of movements.
.weeks: Before the weeks in which a movement is done.
.tests: Title of the test sheet.
.battery: Head of its tests.
.order: In what order they are taken.
.last_time: Before the last result.
.body_mass: Name of the box for body mass.
.body_mass_note: How body mass is taken.
.new_test: Where a test has no earlier result.
.records: Heads of the boxes, by what is written into them.
"""
