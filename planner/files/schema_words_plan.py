"""What each field of a template and of a block means; see schema_words for how the lines are read."""

from __future__ import annotations

TEMPLATE_AND_BLOCK = """
Template:
.weeks: Phase and role of each week.
.reference_week: The week that deload and taper are measured against.
.levels: Budgets, ceilings and limits for each level served.
.day_plans: Which sessions make a week of so many days.
.shapes: The kinds of session.
.schemes: The loading waves, by name.
.required_patterns: Patterns that every week of a role must hold.
.band_width: How wide the bands around the budgets are.
.floors: The least that stays whatever the emphasis.
.deload: A deload week's share of the reference week.
.taper: A taper week's share of the reference week.
.steady_progress: How much a movement's sets may rise through a phase.
.tag3_least_share: The least share of a budget from movements that train it in full.
.counting: What a set counts as, by its tags.
.start_growth: The most that week 1 may be of the recent load.
.unknown_load_weeks: So many weeks are planned a level down where the recent load is not known.
.sets_per_credited_set: Working sets a week for each that the four qualities are credited with.
.maintenance_share: Share of the sets of maximal strength kept once more is surely not needed.
.hard_day: What makes a day hard, and how far apart hard days stay.
.separations: Days between eccentric or heavy hinge work and sprints.
.pain: What pain takes off, step by step.
.sport_stress: What practices and matches load.
.gates: What opens the high tier and the sprints.
.youth: Limits for the young and for novices.
.loads: Steps of machines, and how well load, reps and reserve agree on the card.
.minutes_per: What work takes in minutes, to fit the bands.
.prices: What a unit short costs, in the solver's first stage.
.preferences: What makes one block better to run than another.
.changes: What each change weighs where there is no block and the cheapest is looked for.
.near: What each change from the block in use weighs, with --near.
.test_day: The test that closes the block.
.cautions: Printed on every card.
TestLine:
.practice_jumps: Jumps before the counted ones.
.counted_jumps: Jumps that count.
.jump_s: A jump itself, seconds.
.rest_s: Rest between them, seconds.
Preferences:
.movement: Points for one more movement on a day.
.shape_moved: Points for a session out of the day plan's order.
.repeated: Points for each further day of a varied movement in two load phases that follow each other.
.varied_parts: Parts of a session whose movements should change between phases.
.no_extra_set: Points for a two-leg lift where one leg is asked to get an extra set.
.level_step: Points for a lift a level from the athlete's own.
.jump_level_step: The same for all else.
.tested_load: Points off where the lift was tested.
.untested_load: Points for a percentage without a test.
.beginner_wave: Points for a beginner's wave for one who is none.
.beginner_schemes: The beginners' waves.
.usual_sprint_m: Usual distance of a sprint, metres.
.sprint_10m_off: Points for each 10 m from it.
.resisted_sprint: Points for a resisted sprint.
.stress_point: Points for a point of joint stress.
.quarter_set_off: Points for a quarter set from the middle of its band.
.contact_off: Points for a contact from it.
.high_contact_off: Points for a high-tier contact from it.
.sprint_off: Points for a sprint from it.
Prices:
.quarter_set: A quarter of a working set.
.contact: A contact.
.high_contact: A high-tier contact.
.sprint: A sprint.
MinutesPer:
.day: Warm-up and ramp-up sets of a day.
.set: A working set with its rest.
.low_contact: A low contact with its rest.
.medium_contact: A medium contact with its rest.
.high_contact: A high contact with its rest.
.sprint: A sprint with its rest.
Youth:
.under_years: The age below which these limits hold.
.jump_days: The most jump days a week.
.contacts_week: The most contacts a week.
.least_reserve: The fewest reps left in reserve.
.days_apart: Days between jump days.
.growth_cm_month: Growth that counts as a spurt, cm a month.
.growth_days: Least days from the first stature to the last.
.growth_readings: Least number of statures that a growth is judged from.
.growth_weeks: The growth is the slope over the statures of these last weeks.
.stature_error_cm: Standard error of one stature, cm.
.growth_factor: Factor on the stress ceilings in a spurt.
Gates:
.high_tier_squat_body_mass: Squat that opens the high tier, body masses.
.heavy_body_kg: Body mass from which drops are lowered, kg.
.heavy_body_drop_m: The highest drop then, metres.
.sprint_run_out_m: Floor left over to slow down in, metres.
.approach_runway_m: Floor that a run-up takes, metres.
.closed_high_as_medium: Share of the high contacts done as medium ones where the high tier is closed.
SportStress:
.per_hour: Points a leg for an hour of practice.
.match_factor: How many times a match counts.
PainStep:
.up_to: Up to this pain, 0 to 10.
.ceiling_factor: Factor on the stress ceilings.
.tag3_share: Share of tag-3 contacts kept.
Separations:
.eccentric_before_sprint_days: Days from eccentric hamstring work to a sprint.
.heavy_hinge_before_sprint_days: Days from a heavy hinge to a sprint.
HardDay:
.high_contacts_leg: High-tier contacts a leg that make a day hard.
.sprints: Fast sprints that make a day hard.
.sprint_speed_percent: Speed from which a sprint is fast.
.days_apart: Days between hard days.
.days_before_match: Days kept easy before a match.
.days_before_test: Days kept easy before the test.
Deload:
.low: The least share of the last load week.
.high: The largest share of it.
.aim_under: The bands aim this far under the largest share.
Taper:
.low: The least share of the reference week.
.high: The largest share of it.
.small: Under so many of a thing, one more or less is allowed.
Counting:
.quality_quarters: Quarters of a set for a quality, for a tag of 1, 2 and 3.
.stress_weights: Points of a joint a dose, for a tag of 1, 2 and 3.
.contacts_per_dose: Contacts of a leg that count as one working set does.
.hold_s_per_dose: Seconds of holding that count as one working set does.
.sprint_m_per_dose: Metres of sprinting that count as one working set does.
SteadyProgress:
.more_sets: The most that a lift's or hold's sets rise to the next load week.
.more_efforts: The same for jumps and sprints.
LoadLimits:
.machine_step_kg: Step of stacks, vests and single plates held, kg.
.most_reps_off: A load this many reps from the wave and more is left to the athlete.
.agree_reps: Load, reps and reserve agree within so many reps.
.agree_percent: Load and percentage agree within so many per cent of the maximum.
.easy_reserve: With so many reps in reserve, any lighter load agrees.
ChangePrices:
.minute: A minute more on a day.
.movement: A ban lifted, or a movement allowed by the coach's word.
.equipment: A piece of equipment more.
.pin: A pin left out.
.away_date: A date at home after all.
.pattern_week: A pattern not trained in one week.
.quarter_set: A quarter set under a quality's floor.
.contact: A contact under the floor.
NearPrices:
.movement: A movement in or out of a day of a phase.
.shape_moved: A session on another day.
.set: A set more or less.
Floors:
.sets: Share of the sets kept, by role.
.contacts: Share of the contacts kept, by role.
.primer_contacts: Contacts kept as a primer in a week full of sport.
BandWidth:
.fraction: Half-width as a share of the middle.
.least_sets: Least width in sets.
.least_contacts: Least width in contacts.
.least_approach: Least width in maximal jumps off the run-up.
.least_sprints: Least width in sprints.
Scheme:
.ramp_s: Warm-up sets before the first working set, seconds.
SchemeWeek:
.sets: Least and most working sets in one session; [0, 0] keeps the wave out of the week.
.reps: Reps of a set.
.percent: Percent of the one-repetition maximum.
.reserve: Reps left in reserve.
.hold_s: Length of a hold, seconds.
Shape:
.why: What the session is for; printed on the card.
.parts: Its parts in the order done.
.highest_tier: The highest tier of jump it takes.
.items: Least and most movements.
.warm_up_minutes: Minutes of warm-up.
.low_contacts_only_up_to: A primer: no more contacts than this, all low.
ShapePart:
.part: Which part.
.items: Least and most movements of it.
.patterns: Only movements of one of these patterns.
DayPlan:
.levels: For these levels only; left out, for all.
.factor: Factor on the week's budgets.
.shapes: The sessions in the coach's order, one a day.
.test_week: The sessions of the test week, in order of date.
LevelPlan:
.weeks: The budget of each week.
.session_contacts: The most contacts in a session.
.highest_tier: The highest tier of jump at this level.
.least_reserve: The fewest reps left in reserve.
.joint_stress: Ceilings, points a joint and leg.
.growth: The most that a load week may grow over the last.
GrowthLimits:
.joint_stress: Of the points of a joint and leg.
.sets: Of working sets.
.contacts: Of contacts in all.
Growth:
.ratio: Times the last load week.
.step: And so many more.
StressCeilings:
.session: In one session.
.two_days: On a day and the next.
.week: In a week.
.tag3_contacts_session: Contacts a leg of tag-3 jumps in a session.
.tag3_contacts_week: The same in a week.
WeekBudget:
.sets: Working sets of each quality.
.contacts: Contacts in all.
.approach: Maximal jumps off the run-up, part of the high ones.
WeekPlan:
.phase: Its phase.
.role: build, deload, intensify or taper.

Block:
.athlete: The athlete's file this block was made from.
.library: The library it was made from.
.template: The template it was made from.
.benchmarks: The benchmarks it was made from.
.made_with: The release that made it.
.rules_version: Digest of the rules and their limits.
.seed: The solver's seed.
.deterministic_time: The solver's budget, the same on every machine.
.plan_sha256: Digest of the rest; after an edit by hand it no longer fits, and nothing calls the block proved.
.for_athlete: What the cards print of the athlete.
.template_name: The template's name, printed on the overview.
.gap: The estimate that the block rests on.
.proof: What the solver proved.
.shortfalls: Where a band is missed, each in its own unit.
.weeks: The weeks.
Reference:
.path: Path relative to the block's own folder.
.sha256: Digest of the file as it was read.
Stage:
.objective: What was reached.
.bound: What no block can be better than.
Proof:
.scope: Always library; older blocks may name a shortlist.
.stages: The solver's stages in order.
.status: optimal: no block of the whole library meets the bands better.
Shortfall:
.rule: The rule that is not met in full.
.where: Week, or week and session.
.amount: How much is short or over.
.sentence: The same in words.
Band.low: The least asked for.
Band.high: The most asked for.
Bands:
.working_sets: Band of each quality.
.contacts: Band of all contacts.
.tiers: Band of each tier.
.sprint_efforts: Band of sprint efforts.
.joint_stress: Weekly ceiling of each joint, points a leg.
LegPoints.left: Points of the left leg.
LegPoints.right: Points of the right leg.
Totals:
.working_sets: Credited sets of each quality.
.contacts: Contacts of each tier.
.sprint_efforts: Sprint efforts.
.sprint_m: Metres sprinted.
.joint_stress: Points of each joint and leg, sport included.
Item:
.id: Week, session and item, such as w1s1i1.
.part: The part of the session.
.movement: Id in the library.
.side: both at once, each in turn, or one leg only.
.sets: Sets; 0 where this date bars it, with the reason in note.
.extra_set: The weaker leg, which goes first and gets one set more; null where both get the same.
.reps: Reps of a set, of one leg where legs are worked apart.
.load_kg: Load on the bar or in the hands, as the gym can make it.
.percent: Percent of the one-repetition maximum.
.reps_in_reserve: Reps left in reserve.
.distance_m: Distance of an effort.
.height_m: Height of the box or hurdle.
.height_of: Whether that is a box or a hurdle.
.drop_m: Height of the box it is stepped off from.
.hold_s: Length of a hold.
.rest_s: Rest after a set.
.contacts: Landings of the whole item, all sets, both legs.
.tier: Tier of the jump.
.note: Why 0 sets, or how to find the load.
Session:
.id: Week and session, such as w1s1.
.minutes: Planned length, warm-up and rests included.
.hard_day: Whether it counts as a hard day.
.why: What the session is for.
.focus: The session shape's id.
.title: The session shape's name.
.warm_up_minutes: Minutes of warm-up.
.items: Its movements in order.
Week:
.number: Counting from 1.
.phase: The template's phase.
.role: build, deload, intensify or taper.
.start: Its first day.
.totals: What it holds.
.bands: What was asked for.
.sessions: Its sessions by date.
"""
