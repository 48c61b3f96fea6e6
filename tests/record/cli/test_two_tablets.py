"""Two tablets without signal mend one station each; merged, the record takes neither side."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from record.entry import checkpoint
from record.log import Log
from tests.record.records import SITE, post_text, sheet
from tests.typed import asburied

WORK = """## run AIR-IN

- carries: supply air

| station | invert [m] | how |
|---|---|---|
| 1 foot | 47.850 | staff |
| 2 bend | 47.906 | staff |

## covering FILL-TR

- what: backfill
- hides: AIR-IN
- planned: 2031-05-20
"""
DAY = "2031-06-02T12:00:00Z"


def tell(place: Path, *words: str, status: int = 0, now: str = DAY) -> str:
    done = asburied("--record", str(place), *words, ASBURIED_NOW=now)
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout + done.stderr


@pytest.fixture
def two(tmp_path: Path) -> tuple[Path, Path]:
    """One record (the bend is ld-5), and a copy of it on another tablet."""
    with Log.make(tmp_path / "a") as log:
        post_text(log, SITE)
        post_text(log, sheet(WORK), name="work.md")
    shutil.copytree(tmp_path / "a", tmp_path / "b")
    return tmp_path / "a", tmp_path / "b"


def amend(place: Path, numbers: str, value: str, why: str, writer: str) -> str:
    told = tell(place, "amend", numbers, value, "--because", why, "--writer", writer)
    return told.split(":")[0]


def test_what_both_mended_is_a_disagreement_everywhere_until_an_entry_names_both(
    two: tuple[Path, Path],
) -> None:
    a, b = two
    mine = amend(a, "ld-5", "crown=47.906 m", "it was the crown", "ld")
    theirs = amend(b, "ld-5", "invert=47.700 m", "read again", "ck")
    tell(a, "merge", str(b))
    both = f"{theirs} says invert 47.700 m; {mine} says crown 47.906 m"
    ways = [
        ("show", "AIR-IN/2", 0),
        ("history", "AIR-IN", 0),
        ("ready", "FILL-TR", 1),
        ("manual", "check", 0),
    ]
    for command, of, status in ways:
        told = " ".join(tell(a, command, of, status=status).split())
        assert mine in told and theirs in told, command
        assert "settled" in told.casefold() or "told in two ways" in told, command
    assert both in tell(a, "history", "AIR-IN/2")
    settled = amend(a, f"{mine}, {theirs}", "crown=47.910 m", "both looked again", "ld")
    for command, of, _ in ways:
        status = 1 if command == "ready" else 0  # a bare run has much else to put right
        told = " ".join(tell(a, command, of, status=status).split())
        assert "not settled" not in told.casefold(), command
        assert "level is told in two ways" not in told, command
    assert settled in tell(a, "show", "AIR-IN/2")
    tell(b, "merge", str(a))
    assert tell(a, "show", "AIR-IN/2") == tell(b, "show", "AIR-IN/2")


def test_a_mend_of_a_mend_stands_and_withdrawing_it_brings_the_one_before_it_back(
    two: tuple[Path, Path],
) -> None:
    a, _ = two

    def held() -> list[tuple[str, str]]:
        shown = json.loads(tell(a, "show", "AIR-IN/2", "--json"))["fields"]["level"]["held"]
        return [(one["value"]["si"], one["entry"]) for one in shown]

    first = amend(a, "ld-5", "invert=47.910 m", "misread", "ld")
    second = amend(a, first, "invert=47.920 m", "misread again", "ck")
    assert held() == [("47.92", second)]
    tell(a, "withdraw", second, "--because", "the first was right", "--writer", "ck")
    assert held() == [("47.91", first)]
    tell(a, "withdraw", first, "--because", "and that was not", "--writer", "ld")
    assert held() == [("47.906", "ld-5")]


def listed(place: Path, *words: str) -> list[str]:
    return [one["entry"] for one in json.loads(tell(place, "entries", *words, "--json"))]


def test_entries_are_narrowed_by_any_of_these_together(two: tuple[Path, Path]) -> None:
    a, b = two
    mine = amend(a, "ld-5", "crown=47.906 m", "it was the crown", "ld")
    theirs = amend(b, "ld-5", "invert=47.700 m", "read again", "ld")
    assert mine == theirs == "ld-8"
    tell(a, "merge", str(b))
    twins = listed(a, "--forked", "--mends")
    assert len(twins) == 2 and {n.partition("/")[0] for n in twins} == {"ld-8"}
    assert len(listed(a, "--forked")) == 4  # with the two that tell which sheet was posted
    assert listed(a, "--mends", "--writer", "ck") == []
    assert listed(a, "--tag", "AIR-IN", "--kind", "station", "--day", "2031-05-14") == [
        "ld-4",
        "ld-5",
    ]
    assert listed(a, "--until", "2031-05-13") == ["ld-1", "ld-2"]
    assert listed(a, "--from", "2031-05-14", "--until", "2031-05-14", "--kind", "run") == ["ld-3"]
    assert set(listed(a, "--from", "2031-05-15")) == set(listed(a, "--forked"))
    of_sheet = ["ld-3", "ld-4", "ld-5", "ld-6", "ld-7"]
    assert listed(a, "--sheet", "work.md") == listed(a, "--sheet", "2031-05-14 ld") == of_sheet
    assert "is not a day" in tell(a, "entries", "--day", "Tuesday", status=2)


def issue(place: Path) -> str:
    """Issue an edition as its entry alone; printing the pages is tried elsewhere."""
    from record.posting import append_facts, own_fact
    from tests.record.records import NOW, seeded_salt, stopped_clock

    with Log.open(place) as log:
        entries = log.entries()
        point = checkpoint("fern-bank", entries).hash
        number = sum(1 for e in entries if e.content and e.content.kind == "edition-issued") + 1
        body = {"edition": number, "reader": "owner", "recorded_to": "2031-05-14",
                "checkpoint": point, "pdf": "x", "html": "x", "calendar": "x"}  # fmt: skip
        fact = own_fact(
            "edition issued",
            body,
            site="fern-bank",
            zone="America/Denver",
            day="2031-06-01",
            writer="of",
            command="manual issue",
        )
        append_facts(log, fact, clock=stopped_clock(NOW), salt=seeded_salt("x"))
    return point


def test_as_known_at_a_checkpoint_is_exact_whatever_the_clocks_say(two: tuple[Path, Path]) -> None:
    """What the other tablet wrote before, by its clock, was not in the edition."""
    a, b = two
    early = amend(b, "ld-5", "crown=47.906 m", "it was the crown", "ck")
    point = issue(a)
    tell(a, "merge", str(b))
    for asked in (point, point[:8], "edition 1"):
        told = tell(a, "show", "AIR-IN/2", "--as-known-at", asked)
        assert early not in told and "47.906" in told and "(ld-5" in told
        assert point[:16] in told.splitlines()[0] and "7 entries, exactly" in told.splitlines()[0]
    assert early in tell(a, "show", "AIR-IN/2")
    with Log.open(a) as log:
        now = checkpoint("fern-bank", log.entries()).hash
    assert early in tell(a, "show", "AIR-IN/2", "--as-known-at", now[:8])
    assert "no edition 2" in tell(a, "show", "AIR-IN", "--as-known-at", "edition 2", status=2)
    assert "carries a checkpoint" in tell(
        a, "show", "AIR-IN", "--as-known-at", "abcdef0123", status=1
    )


def test_as_known_and_as_it_stood_are_asked_together_and_both_are_said_first(
    two: tuple[Path, Path],
) -> None:
    a, _ = two
    issue(a)
    both = ("--as-known-at", "edition 1", "--as-of", "2031-05-14")
    for words, status in [
        (("show", "AIR-IN"), 0),
        (("history", "AIR-IN"), 0),
        (("entries",), 0),
        (("due",), 0),
        (("ready", "FILL-TR"), 1),
    ]:
        head = tell(a, *words, *both, status=status).splitlines()[0]
        assert head.startswith("As known at edition 1: ") and head.endswith(
            "and as it stood on 2031-05-14:"
        )
    form = json.loads(tell(a, "show", "AIR-IN", *both, "--json"))
    assert form["as_of"] == "2031-05-14" and form["as_known_at"].startswith("edition 1")
    clocks = tell(a, "show", "AIR-IN", "--as-known-at", "2031-06-01")
    assert clocks.startswith("As known at 2031-06-01, by the writers' clocks:")
