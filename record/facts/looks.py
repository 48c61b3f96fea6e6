"""Which happenings are looks at the work: inspections by eye and gauge, and tests that prove.

One list for everybody who asks whether something was looked at, failed, or passed again.
"""

from __future__ import annotations

from record.facts.fields import Field, OneOf
from record.facts.named import EntryOf

#: Kind → the field that says what was looked at. Somebody looked, by a criterion.
INSPECTIONS = {
    "inspected": "what",
    "weld inspected": "weld",
    "coating inspected": "what",
}
#: Kind → the field that says which test it was. What passes here is a proof, and can lapse.
PROOFS = {
    "tested": "test",
    "compaction tested": "lift",
    "pressure tested": "test",
    "flow tested": "test",
    "holiday tested": "test",
}
LOOKS = {**INSPECTIONS, **PROOFS}
#: Kind → the field that holds what was found, where it is not called a reading.
FOUND = {
    "coating inspected": "film",
    "compaction tested": "degree",
    "pressure tested": "leakage",
    "flow tested": "flow",
    "holiday tested": "holidays",
}

RESULT = Field("result", OneOf(("passed", "failed", "as found")), needed=True)
#: A retest is of a test, or of what voided one.
RETEST_OF = EntryOf((*LOOKS, "proof lapsed", "opened up", "worked by others"))
REPAIR_OF = EntryOf((*LOOKS, "serviced"))


def titled(kind: str) -> str:
    """Return the name of the field that says what was looked at, as in an entry's body."""
    return LOOKS[kind].replace(" ", "_")


def found_in(kind: str) -> str:
    """Return the name of the field that says what was found, as in an entry's body."""
    return FOUND.get(kind, "reading").replace(" ", "_")
