"""The JSON of proofs, balance, left, drift and fill, described."""

from __future__ import annotations

from record.described.writing import (
    ANYTHING,
    COUNT,
    ENTRIES,
    ENTRY,
    MAYBE,
    MAYBE_NUMBER,
    MOMENT,
    TEXT,
    TEXTS,
    YES_NO,
    all_of,
    described,
    keyed,
    listed,
    maybe,
)

UNDONE = listed(
    keyed(
        "what undid it; a reader who may not see the work is told its day alone",
        {
            "moment": MOMENT,
            "what": described(TEXTS, "such as drilled, opened up"),
            "entry": MAYBE,
            "source": described(TEXT, "of the rule that this undoes such a test"),
        },
    )
)
PROOFS = all_of(
    "proofs",
    "Every test that passed, and what has undone it.",
    keyed(
        "a test that passed, the newest of its name on one thing",
        {
            "about": TEXT,
            "test": TEXT,
            "passed": MOMENT,
            "found": described(TEXT, "what was read"),
            "entry": ENTRY,
            "state": described(TEXT, "whether it still proves something"),
            "void_since": described(MAYBE, "null where it stands"),
            "undone_by": UNDONE,
            "earlier": listed(
                keyed(
                    "the same test, passed before",
                    {"passed": MOMENT, "found": TEXT, "entry": ENTRY, "undone_by": UNDONE},
                )
            ),
            "doubt": MAYBE,
        },
    ),
)

LINES = listed(
    keyed(
        "one line of an account",
        {
            "words": TEXT,
            "amount": described(MAYBE, "a decimal in the measure; null is not known"),
            "entries": ENTRIES,
        },
    )
)
BALANCE = all_of(
    "balance",
    "What came, held against what was built in, sent back and kept.",
    keyed(
        "the account of one item",
        {
            "name": TEXT,
            "what": TEXT,
            "lot": MAYBE,
            "measure": described(TEXT, "an SI unit, or pieces"),
            "planned": LINES,
            "came": LINES,
            "built_in": LINES,
            "went": described(LINES, "sent back, used up or kept"),
            "left": described(MAYBE, "unaccounted for, a decimal; null cannot be told"),
            "short": described(MAYBE, "planned and never came, a decimal; null as above"),
            "missing": TEXTS,
            "unknown": TEXTS,
            "says": TEXT,
            "even": described(YES_NO, "whether it adds up"),
        },
    ),
)

LEFT = keyed(
    "What is only there for a time, and how everything with a position was left.",
    {
        "still_on": listed(
            keyed(
                "a thing that is there for a time and still on",
                {"tag": TEXT, "what": MAYBE, "on": MAYBE, "off_before": MAYBE, "entries": ENTRIES},
            )
        ),
        "positions": listed(
            keyed(
                "how one thing was left",
                {
                    "tag": TEXT,
                    "state": described(TEXT, '"not known" where it was touched since'),
                    "left": described(MAYBE, "the position, as it was written"),
                    "until": described(MAYBE, "where it was left so for a time"),
                    "moment": MAYBE,
                    "normal": MAYBE,
                    "entry": MAYBE,
                    "touched_since": described(MAYBE, "the entry of what was done to it since"),
                },
            )
        ),
        "open_visits": listed(
            keyed(
                "a visit that is not closed",
                {"day": TEXT, "writer": TEXT, "left_in_no_position": TEXTS},
            )
        ),
    },
)

READING = keyed(
    "one reading",
    {
        "moment": MOMENT,
        "reading": described(TEXT, "as it was written"),
        "value": described(MAYBE, "a decimal in SI; null where it is no quantity"),
        "unit": MAYBE,
        "change": described(MAYBE, "from day one, a decimal in SI"),
        "certain": {
            "type": ["boolean", "null"],
            "description": "whether the change is more than both tolerances",
        },
        "entry": ENTRY,
    },
)
TREND = keyed(
    "a straight line through the readings, and its doubt",
    {
        "readings": COUNT,
        "a_year": described(MAYBE_NUMBER, "change in a year, SI"),
        "doubt_95": described(MAYBE_NUMBER, "of that, 95 %"),
        "certain": YES_NO,
        "limit_earliest": described(MAYBE, "the first day the line may meet the limit"),
        "limit_latest": MAYBE,
    },
)
DRIFT = all_of(
    "drift",
    "Every later reading beside that of day one. It never says whether a change is safe.",
    keyed(
        "one reading, followed",
        {
            "about": TEXT,
            "what": TEXT,
            "limit": described(ANYTHING, "as somebody recorded it; null where nobody did"),
            "day_one": READING,
            "later": listed(READING),
            "past_limit": YES_NO,
            "trend": maybe(TREND),
        },
    ),
)

FILL = keyed(
    "The fill by side and lift, and how the hull's shape moved.",
    {
        "lifts": listed(
            keyed(
                "one lift; lengths are decimals in metres",
                {
                    "about": TEXT,
                    "moment": MOMENT,
                    "side": MAYBE,
                    "level_m": MAYBE,
                    "above_other_side_m": described(MAYBE, "as the other side then was"),
                    "entry": ENTRY,
                },
            )
        ),
        "shapes": listed(
            keyed(
                "one measure, followed",
                {
                    "about": TEXT,
                    "what": TEXT,
                    "missing": described(TEXTS, "stages at which nobody measured"),
                    "readings": listed(
                        keyed(
                            "one reading; lengths are decimals in metres",
                            {
                                "stage": MAYBE,
                                "moment": MOMENT,
                                "measured_m": MAYBE,
                                "change_m": MAYBE,
                                "limit_m": described(MAYBE, "the engineer's"),
                                "entry": ENTRY,
                            },
                        )
                    ),
                },
            )
        ),
    },
)
