"""A ceiling on the contacts of novices and youth in a week."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class YouthContacts(Rule):
    id = "youth-contacts"
    title = "A ceiling on a young week's contacts"
    says = (
        "Novices and youth have no more programmed contacts in a week than the template allows, closing test included, "
        "whatever the weekly ranges say."
    )
    source = "Bedoya et al. 2015, JSCR 29:2351 for how contacts grow; the week's ceiling is common practice, no source"
    unit = "contacts"

    def figures(self, template: Template) -> str:
        youth = template.youth
        return f"At most {counted(youth.contacts_week, 'contact')} a week; youth are under {youth.under_years}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.youth:
            for week in problem.weeks:
                terms = problem.week_terms(week, contacts)
                yield self.row(Address(week=week), terms, high=problem.template.youth.contacts_week)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        most = plan.problem.template.youth.contacts_week
        for week in plan.weeks if plan.problem.youth else ():
            if week.contacts > most:
                sentence = f"week {week.number}: {week.contacts} contacts; novices and youth have at most {most}"
                yield self.breach(week.at, sentence, week.contacts - most)
