"""A cap on each leg's contacts of the most stressful jumps."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, joint_legs
from planner.problem.per_set import tag3_contacts
from planner.rules.figure_words import each_level, lowered_by_pain
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class Tag3Contacts(Rule):
    id = "tag3-contacts"
    title = "A ceiling on the most stressful contacts"
    says = (
        "Contacts of jumps with stress tag 3 on a joint stay under a ceiling for each leg, in a session and in a week."
    )
    source = "common practice, no source"
    unit = "contacts"

    def figures(self, template: Template) -> str:
        session = each_level(template, lambda level: str(level.joint_stress.tag3_contacts_session))
        week = each_level(template, lambda level: str(level.joint_stress.tag3_contacts_week))
        pain = lowered_by_pain(template, lambda step: step.tag3_share)
        return f"At most {session} contacts a leg in a session; {week} in a week. Of these, {pain}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for joint, leg in joint_legs():
            ceiling = problem.ceilings[joint, leg]
            for week in problem.weeks:
                at, total = Address(week=week, joint=joint, leg=leg), []
                for slot in (slot for one, slot in problem.programmed_days() if one == week):
                    terms = problem.session_terms(week, slot, tag3_contacts(joint, leg))
                    total += terms
                    if terms:
                        yield self.row(at._replace(slot=slot), terms, high=ceiling.tag3_session)
                if total:
                    yield self.row(at, total, high=ceiling.tag3_week)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for joint, leg in joint_legs():
            ceiling = plan.problem.ceilings[joint, leg]
            for week in plan.weeks:
                total = 0.0
                for session in week.sessions:
                    contacts = 0.0 if session.is_test else session.tag3_contacts(joint, leg)
                    total += contacts
                    at = session.at._replace(joint=joint, leg=leg)
                    yield from self._over(at, session.where, contacts, ceiling.tag3_session)
                at = week.at._replace(joint=joint, leg=leg)
                yield from self._over(at, f"week {week.number}", total, ceiling.tag3_week)

    def _over(self, at: Address, where: str, contacts: float, most: int) -> Iterator[Breach]:
        if contacts > most:
            sentence = f"{where}: {contacts:.0f} of the most stressful contacts on the {at.leg} {at.joint}"
            yield self.breach(at, f"{sentence}; at most {most}", contacts - most)
