"""The JSON of reckon, figures, due and visits, described."""

from __future__ import annotations

from record.described.writing import (
    ANYTHING,
    ENTRIES,
    ENTRY,
    MAYBE,
    TEXT,
    TEXTS,
    YES_NO,
    Schema,
    all_of,
    described,
    keyed,
    listed,
    maybe,
)

RESULTS = listed(
    keyed(
        "one result",
        {
            "name": TEXT,
            "value": described(ANYTHING, "a number in the unit, or words"),
            "unit": described(MAYBE, "null where the value has none"),
        },
    )
)
TOLD: dict[str, Schema] = {
    "source": described(TEXT, "of the formula"),
    "caution": TEXT,
    "confirm": described(MAYBE, "who must confirm it"),
}
UNIT = described(
    {"type": ["string", "object", "null"]}, "SI; of a row, one for each of its columns"
)
INPUT: dict[str, Schema] = {
    "key": TEXT,
    "value": described(ANYTHING, "in the unit, words, or rows by column; null was not given"),
    "unit": UNIT,
    "usual": described(YES_NO, "nobody gave it: the sum's usual value stands for it"),
}
FORMULA = described(TEXT, "as the source prints it")
WORKED = keyed(
    "a sum that was worked",
    {
        "name": TEXT,
        "formula": FORMULA,
        "inputs": listed(
            keyed("what was given", {**INPUT, "written": described(TEXTS, "as it was typed")})
        ),
        "results": RESULTS,
        **TOLD,
    },
)
RECKON: Schema = {
    "description": "A sum that was worked; with a name alone, what it takes; without, all of them.",
    "oneOf": [
        WORKED,
        keyed("what a sum takes", {"name": TEXT, "inputs": TEXTS}),
        listed(keyed("one of the sums", {"name": TEXT, "title": TEXT})),
    ],
}
FED = keyed(
    "what was fed from the record",
    {**INPUT, "how": described(MAYBE, "what was worked to get it"), "entries": ENTRIES},
)
FIGURES = all_of(
    "figures",
    "Every sum that the record can feed, with its inputs.",
    keyed(
        "one figure",
        {
            "name": TEXT,
            "about": described(TEXT, "the thing's tag"),
            "of": MAYBE,
            "formula": FORMULA,
            "inputs": listed(FED),
            "results": RESULTS,
            "refused": described(MAYBE, "why it cannot be worked from these inputs"),
            "missing": listed(
                keyed(
                    "what is not recorded",
                    {
                        "words": TEXT,
                        "record": described(ANYTHING, "the line to write"),
                        "arises": described(YES_NO, "false: the figure means nothing here"),
                    },
                )
            ),
            "notes": TEXTS,
            **TOLD,
        },
    ),
)

DONE = {"on": TEXT, "entry": ENTRY}
DUE = all_of(
    "due",
    "The upkeep that is due, overdue first.",
    keyed(
        "one task on one thing",
        {
            "task": TEXT,
            "about": TEXT,
            "name": TEXT,
            "title": TEXT,
            "due": described(TEXT, "the day"),
            "overdue_days": described({"type": "integer"}, "0 where it is not overdue"),
            "counted_from": keyed(
                "what it is counted from", {"on": TEXT, "why": TEXT, "entry": ENTRY}
            ),
            "last_done": maybe(keyed("when it was last done", {**DONE, "at": MAYBE})),
            "failed": listed(keyed("a try that failed", DONE)),
            "rules": listed(
                keyed(
                    "whose interval",
                    {
                        "whose": TEXT,
                        "says": TEXT,
                        "source": TEXT,
                        "due": TEXT,
                        "entry": MAYBE,
                        "rules": described(YES_NO, "whether it is the one that counts"),
                    },
                )
            ),
            "makers_interval": MAYBE,
            "benchmark": described(MAYBE, "said where an interval is a mere benchmark"),
            "who": TEXTS,
            "page": described(ANYTHING, "of the manual"),
            "notes": TEXTS,
            "cannot_tell": MAYBE,
        },
    ),
)
VISITS = all_of(
    "visits",
    "The upkeep that is to come, in the fewest visits.",
    keyed(
        "one visit",
        {
            "on": TEXT,
            "opens": described(TEXT, "the first day on which it may fall"),
            "closes": TEXT,
            "deep_winter": YES_NO,
            "tasks": listed(
                keyed(
                    "one task of it",
                    {"task": TEXT, "about": TEXT, "opens": TEXT, "due": TEXT, "who": TEXTS},
                )
            ),
        },
    ),
)
