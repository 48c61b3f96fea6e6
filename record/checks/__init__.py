"""Before it is covered: what is missing, what is wrong, and what was waived."""

from __future__ import annotations

from record.checks.finding import Finding, Rule
from record.checks.ready import NoSuchCovering, Readiness, ready
from record.checks.rules import RULES, explain, rule_named
from record.checks.words import json_form, nothing_in_the_way, ready_words

__all__ = [
    "RULES",
    "Finding",
    "NoSuchCovering",
    "Readiness",
    "Rule",
    "explain",
    "json_form",
    "nothing_in_the_way",
    "ready",
    "ready_words",
    "rule_named",
]
