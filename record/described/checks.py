"""The JSON of `ready`, described: of one covering, of the evening, and of the hand-over."""

from __future__ import annotations

from record.described.writing import (
    COUNT,
    ENTRIES,
    ENTRY,
    MAYBE,
    MAYBE_NUMBER,
    TEXT,
    TEXTS,
    YES_NO,
    Schema,
    described,
    keyed,
    listed,
    maybe,
)

WAIVED = keyed(
    "two people answer for it",
    {"on": TEXT, "at": MAYBE, "by": MAYBE, "reason": TEXT, "second": TEXT, "entry": ENTRY},
)
FINDING = keyed(
    "one thing that is missing or wrong",
    {
        "rule": TEXT,
        "about": TEXT,
        "says": TEXT,
        "sure": {"enum": ["certain", "cannot be told"]},
        "why": TEXT,
        "clears": described(TEXTS, "lines to write, or what to do"),
        "shows": described(TEXTS, "a table, line by line"),
        "stops": described(YES_NO, "false where it only warns"),
        "entries": ENTRIES,
        "figures": described(TEXTS, "the sums that work its numbers"),
        "waived": maybe(WAIVED),
    },
)
COVERING: dict[str, Schema] = {
    "covering": TEXT,
    "what": MAYBE,
    "planned": MAYBE,
    "hides": TEXTS,
    "stops": described(YES_NO, "whether anything recorded stands in the way"),
    "withheld": described(COUNT, "entries the reader may not see"),
    "findings": listed(FINDING),
    "covered": listed(keyed("it went on", {"on": TEXT, "at": MAYBE, "by": MAYBE, "entry": ENTRY})),
}
FLOAT_MARK = keyed(
    "the water level at which a hull in an open pit would float; it never says that one will not",
    {
        "hull": TEXT,
        "mark_m": described(MAYBE_NUMBER, "the lower of both below"),
        "worked_m": described(MAYBE_NUMBER, "from the mass"),
        "given_m": described(MAYBE_NUMBER, "as somebody stated"),
        "state": TEXT,
        "missing": TEXTS,
        "water_m": MAYBE_NUMBER,
        "water_at": MAYBE,
        "pipe": described(MAYBE, "in which the water was read"),
        "below_mark_m": MAYBE_NUMBER,
        "limit": described(TEXT, "of what the sum leaves out"),
        "entries": ENTRIES,
    },
)
OWED = listed(
    keyed(
        "what somebody owes",
        {
            "about": TEXT,
            "what": TEXT,
            "by": MAYBE,
            "due": MAYBE,
            "late": YES_NO,
            "touches": described(TEXTS, "coverings that wait for it"),
        },
    )
)
STILL: dict[str, Schema] = {
    "still_on": described(TEXTS, "there for a time"),
    "left_for_a_time": TEXTS,
    "position_not_known": TEXTS,
}
LAPSED = {"about": TEXT, "test": TEXT}
EVENING = keyed(
    "The evening: what comes, and what stands open.",
    {
        "day": TEXT,
        "site": TEXT,
        "stops": YES_NO,
        "today": described(
            {"type": "object", "additionalProperties": COUNT}, "writer → entries of today"
        ),
        "float_marks": listed(FLOAT_MARK),
        "coverings": listed(keyed("one that comes", {"when": TEXT, **COVERING})),
        "lapsed": listed(
            keyed(
                "a test that proves nothing now",
                {**LAPSED, "state": TEXT, "since": MAYBE, "entry": ENTRY},
            )
        ),
        **STILL,
        "owed": OWED,
        "withheld": COUNT,
    },
)
HANDOVER = keyed(
    "The whole record, gone through for the hand-over.",
    {
        "day": TEXT,
        "site": TEXT,
        "stops": YES_NO,
        "findings": listed(FINDING),
        "coverings_not_on": TEXTS,
        "coverings_stopped": listed(
            keyed("one covering", {"covering": TEXT, "findings": listed(FINDING)})
        ),
        "covered_without_release": TEXTS,
        "waived": listed(keyed("one waiver", {"covering": TEXT, "finding": FINDING})),
        "set_aside": listed(
            keyed("a rule set aside for a thing", {"about": TEXT, "rule": TEXT, "waiver": ENTRY})
        ),
        **STILL,
        "lapsed": listed(keyed("a test that proves nothing now", LAPSED)),
        "owed": OWED,
        "zones": described(TEXTS, "reserved zones the contractor signs for"),
        "withheld": COUNT,
        "unread": COUNT,
    },
)
READY: Schema = {
    "description": "Of a covering; without one, the evening; of handover, the whole record.",
    "oneOf": [keyed("of one covering", COVERING), EVENING, HANDOVER],
}
