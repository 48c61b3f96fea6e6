"""The JSON of verify, merge, pack, unpack, export and the manual's editions, described."""

from __future__ import annotations

from record.described.writing import (
    COUNT,
    ENTRY,
    MAYBE,
    TEXT,
    TEXTS,
    YES_NO,
    described,
    keyed,
    listed,
    maybe,
)

PROBLEM = {"entry": ENTRY, "problem": TEXT}
CHECKPOINT = described(TEXT, "the hash that stands for all of it")
ABSENT = described(TEXTS, "files that entries name and no copy has")
FORKS = described(listed(TEXTS), "entries of one number: two devices wrote as one")
COVERS = listed(
    keyed(
        "one chain it signs",
        {
            "to": described(TEXT, "the last entry it covers"),
            "head": described(TEXT, "hash of that entry's link line"),
            "since": described(COUNT, "entries of the chain written since"),
            "since_of_that_day": described(COUNT, "of these, about the day that was signed"),
            "fault": TEXT,
        },
    )
)
VERIFY = keyed(
    "Whether every entry, chain, kept file and signature is as it was sealed.",
    {
        "sound": YES_NO,
        "faults": listed(
            keyed(
                "the first entry of a writer that does not match",
                {**PROBLEM, "sound_before": described(COUNT, "entries before it that match")},
            )
        ),
        "files": listed(keyed("a kept file that is gone or changed", PROBLEM)),
        "writers": described({"type": "object", "additionalProperties": COUNT}, "writer → entries"),
        "withheld": described(COUNT, "entries whose content this copy does not hold"),
        "without": described(TEXTS, "these entries"),
        "signatures": listed(
            keyed(
                "one sign-off",
                {
                    "entry": ENTRY,
                    "signer": TEXT,
                    "day": TEXT,
                    "standing": described(TEXT, "good, or what it is worth"),
                    "why": TEXT,
                    "covers": COVERS,
                },
            )
        ),
        "forks": FORKS,
        "checkpoint": {**MAYBE, "description": "null where nothing is recorded"},
        "reserved": maybe(
            keyed(
                "in a reader's copy, what is reserved of what it lacks; null elsewhere",
                {
                    "sha256": TEXT,
                    "reader": {**MAYBE, "description": "null: it cannot be read"},
                    "holds": described(YES_NO, "false: everything is reserved"),
                    "signed_by": MAYBE,
                    "signature": {**MAYBE, "description": "good, or what it is worth"},
                },
            )
        ),
        "held": listed(
            keyed(
                "what was handed over earlier, held against the record",
                {
                    "what": TEXT,
                    "extended": YES_NO,
                    "entries": described(COUNT, "that it stands for"),
                    "lacks": listed(keyed("an entry that is gone or is another", PROBLEM)),
                },
            )
        ),
    },
)
MERGE = keyed(
    "What came in from other copies.",
    {
        "taken": described(YES_NO, "false with --dry-run"),
        "entries": TEXTS,
        "contents": described(COUNT, "entries whose content came"),
        "files": TEXTS,
        "files_absent": ABSENT,
        "forks": FORKS,
        "rests_on_nothing_here": TEXTS,
    },
)
PACK = keyed(
    "What was packed.",
    {
        "bag": TEXT,
        "site": TEXT,
        "reader": TEXT,
        "entries": COUNT,
        "contents": described(COUNT, "entries whose content is in it"),
        "held_back": described(COUNT, "entries left out with --without that the reader may see"),
        "told_of_still": described(TEXTS, "tags that lost an entry by it and are told of still"),
        "kept_files": COUNT,
        "files_absent": ABSENT,
        "checkpoint": CHECKPOINT,
        "signed_by": {**MAYBE, "description": "who signed all of it, with --as"},
    },
)
UNPACK = keyed(
    "What was restored.",
    {
        "site": TEXT,
        "entries": COUNT,
        "contents": described(COUNT, "entries whose content was in it"),
        "files": COUNT,
        "absent": ABSENT,
        "checkpoint": CHECKPOINT,
        "signed_by": {**MAYBE, "description": "who signed all of the bag"},
        "signature": {**MAYBE, "description": "good, or what it is worth"},
        "record": described(TEXT, "where it stands now"),
    },
)
EXPORT = keyed(
    "What was written for other programs.",
    {
        "format": TEXT,
        "out": TEXT,
        "reader": TEXT,
        "things": COUNT,
        "withheld": described(COUNT, "entries the reader may not see: a gap is no empty ground"),
    },
)
MANUAL_LIST = described(
    listed(
        keyed(
            "one edition; its files are named by SHA-256",
            {
                "edition": COUNT,
                "reader": TEXT,
                "language": TEXT,
                "recorded_to": TEXT,
                "superseded": YES_NO,
                "entries_since": COUNT,
                "checkpoint": CHECKPOINT,
                "pdf": MAYBE,
                "html": MAYBE,
                "calendar": MAYBE,
                "emergency": MAYBE,
                "cards": MAYBE,
                "entry": ENTRY,
            },
        )
    ),
    "The editions of the manual, newest last.",
)
MANUAL_COMPARE = keyed(
    "What came between two editions.",
    {
        "older": COUNT,
        "newer": COUNT,
        "entries": listed(
            keyed("one entry", {"entry": ENTRY, "about": TEXT, "kind": TEXT, "mends": TEXTS})
        ),
    },
)
SEAL = keyed(
    "A record that was encrypted, or made plain again.",
    {
        "entries": COUNT,
        "files": described(COUNT, "kept files"),
        "removed": described(COUNT, "plain or older files of the record"),
        "left": described(TEXTS, "files of somebody's own that lie open in its folder"),
        "record": TEXT,
    },
)
MANUAL_CHECK = described(
    listed(
        keyed(
            "what is to be mended before it is printed",
            {
                "rule": TEXT,
                "page": {"type": ["integer", "null"]},
                "wrong": TEXT,
                "line": {"description": "the line it stands in"},
                "instead": described(TEXT, "what to do"),
                "stops": described(YES_NO, "whether it stops the printing"),
            },
        )
    ),
    "What a careful reader of the manual finds, page by page.",
)
