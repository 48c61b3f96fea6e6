"""What the owner's manual must be able to say is recorded before the work is handed over."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.values import Absent, Why, in_words
from record.readers import View

#: Fields of the site that a page of the manual prints; whether the lead waits for them.
OF_SITE = (
    ("emergency_number", True),
    ("address_for_responders", True),
    ("one-call_number", False),
    ("name", True),
    ("datum", True),
    ("grid", True),
    ("people", True),
    ("builder_contact", True),
    ("altitude", False),
    ("frost_depth", False),
    ("climate_from", False),
    ("intended_use", False),
    ("not_proved_for", False),
    ("engineer_of_record", False),
)
#: Kinds of which a page needs at least one; whether the lead waits, and what it is needed for.
AT_LEAST_ONE = (
    ("hull", True, "the plan"),
    ("way out", True, "how to get out when the door does not open"),
    ("procedure", True, "what to do in an emergency"),
    ("landmark", True, "finding again what is buried"),
    ("benchmark", True, "every level"),
    ("panel", False, "what is behind each board"),
    ("equipment", False, "upkeep"),
    ("store", False, "what there is inside"),
    ("dip pipe", False, "the watch on groundwater"),
)


def find(view: View) -> Iterator[Finding]:
    """Find fields of the site and whole kinds of thing that the manual would print as a gap."""
    site = view.built.site_thing()
    for name, stops in OF_SITE:
        value = site.value(name) if site else Absent(Why.NOT_RECORDED)
        if isinstance(value, Absent) and value.why is not Why.NOT_APPLICABLE:
            yield _field(view, name, value, stops)
    for word, stops, what_for in AT_LEAST_ONE:
        if not any(True for _ in view.built.of_kind(word)):
            yield RULE.finding(
                view.built.site,
                f"no {word} is recorded; the manual has none for {what_for}",
                clears=(f"a block about each {word}: `asburied blank {_quoted(word)}`",),
                sure=CANNOT_BE_TOLD,
                stops=stops,
            )


def _field(view: View, name: str, value: Absent, stops: bool) -> Finding:
    site = view.built.site_thing()
    key = name.replace("_", " ")
    return RULE.finding(
        view.built.site,
        f"{key}: {in_words(value)}",
        clears=(f"## site {view.built.site}", f"- {key}: what it is, or n/a and why"),
        entries=site.entries()[:1] if site else (),
        sure=CERTAIN if value.why is Why.NONE else CANNOT_BE_TOLD,
        stops=stops,
    )


def _quoted(word: str) -> str:
    return f'"{word}"' if " " in word else word


RULE = HandoverRule(
    word="the manual can say what it must",
    why=(
        "Whoever opens the manual at night, in thirty years, has only what stands in it. A gap "
        "where the number to ring or the way out should be is found when it is needed."
    ),
    find=find,
)
