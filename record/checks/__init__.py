"""Before it is covered: what is missing, what is wrong, and what was waived."""

from __future__ import annotations

from record.checks.finding import Finding, HandoverRule, Rule
from record.checks.ready import NoSuchCovering, Readiness, ready
from record.checks.rules import HANDOVER_RULES, RULES, explain, rule_named
from record.checks.words import (
    finding_form,
    finding_words,
    json_form,
    nothing_in_the_way,
    ready_words,
)

__all__ = [
    "HANDOVER_RULES",
    "RULES",
    "Finding",
    "HandoverRule",
    "NoSuchCovering",
    "Readiness",
    "Rule",
    "explain",
    "finding_form",
    "finding_words",
    "json_form",
    "nothing_in_the_way",
    "ready",
    "ready_words",
    "rule_named",
]
