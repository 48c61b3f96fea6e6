"""Whatever is done to the lines behind the program's back, verify names where it begins."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from record.entry import checkpoint
from record.log import Log, verify
from record.log.kept import missing_files
from record.log.verifying import Verdict
from tests.record.records import SITE, Tablet, post_text, sheet

Rows = list[tuple[str, str, bytes, bytes | None]]


def rows(*tablets: Tablet) -> Rows:
    return [(e.hash, "", e.link_line, e.content_line) for t in tablets for e in t.chain]


def crew() -> tuple[Tablet, Tablet]:
    ck, ld = Tablet("ck"), Tablet("ld")
    for n in range(6):
        ck.says("remark", "fern-bank", {"text": f"ck {n}"})
        ld.says("remark", "fern-bank", {"text": f"ld {n}"})
    return ck, ld


def first(verdict: Verdict) -> tuple[str, int]:
    return verdict.faults[0].entry, verdict.faults[0].sound_before


def test_an_untouched_log_is_sound():
    verdict = verify(rows(*crew()))
    assert verdict.sound and verdict.counts == (("ck", 6), ("ld", 6))
    assert verdict.withheld == 0


@pytest.mark.parametrize("which", [0, 2, 5])
@pytest.mark.parametrize("place", ["link", "content"])
def test_any_flipped_byte_is_named_at_its_entry(which: int, place: str):
    """Every byte of the line, by its lowest bit, one at a time."""
    before = rows(*crew())
    stored, received, link, content = before[which]
    assert content is not None
    whole = link if place == "link" else content
    for at in range(len(whole)):
        turned = whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :]
        changed = list(before)
        changed[which] = (
            (stored, received, turned, content)
            if place == "link"
            else (stored, received, link, turned)
        )
        verdict = verify(changed)
        assert not verdict.sound, at
        names = [fault.entry for fault in verdict.faults]
        number = f"ck-{which + 1}"
        # A link whose writer or number cannot be told any more is named by its hash instead.
        assert number in names or f"the entry stored as {stored[:12]}…" in names, (at, names)


def test_a_dropped_entry_is_named_and_how_many_before_it_are_sound():
    before = rows(*crew())
    assert first(verify(before[:2] + before[3:])) == ("ck-3", 2)
    assert first(verify(before[1:])) == ("ck-1", 0)


def test_two_entries_that_changed_places_are_named():
    """As a database would hand them over: number and place taken from the altered columns."""
    before = rows(*crew())
    before[2], before[3] = before[3], before[2]
    assert first(verify(before)) == ("ck-3", 2)


def test_contents_that_changed_places_are_named():
    before = rows(*crew())
    (a, b, c, one), (d, e, f, two) = before[2], before[3]
    before[2], before[3] = (a, b, c, two), (d, e, f, one)
    assert first(verify(before)) == ("ck-3", 2)


def test_an_entry_put_in_with_hashes_of_its_own_breaks_the_one_after_it():
    """The forger seals a third entry anew and knows how to; the fourth still names the old."""
    ck, _ = crew()
    forged = Tablet("ck", chain=ck.chain[:2])
    forged.says("remark", "fern-bank", {"text": "it was never so"})
    before = rows(ck)
    before[2] = rows(forged)[2]
    assert first(verify(before)) == ("ck-4", 3)


def test_a_fork_is_told_by_the_number_that_stands_twice_and_both_branches_are_sound():
    ck, _ = crew()
    other = Tablet("ck", chain=ck.chain[:3])
    other.says("remark", "fern-bank", {"text": "the restored tablet"})
    both = sorted([*rows(ck), *rows(other)[3:]], key=lambda r: json.loads(r[2])["seq"])
    verdict = verify(both)
    (twins,) = verdict.forks
    assert verdict.sound and {name.partition("/")[0] for name in twins} == {"ck-4"}
    marks = {name.partition("/")[2] for name in twins}
    assert marks == {ck.chain[3].hash[:4], other.chain[3].hash[:4]}


def test_a_branch_whose_foot_is_not_here_is_a_fault_though_its_number_stands():
    """The fork's other branch goes on from an entry of its own that was not handed over."""
    ck, _ = crew()
    other = Tablet("ck", chain=ck.chain[:3])
    for n in range(2):
        other.says("remark", "fern-bank", {"text": f"the restored tablet {n}"})
    both = sorted([*rows(ck), *rows(other)[4:]], key=lambda r: json.loads(r[2])["seq"])
    verdict = verify(both)
    assert first(verdict)[0] == "ck-5"
    assert "rests on an entry that is not here" in verdict.faults[0].problem


def test_a_cut_tail_is_shown_by_the_checkpoint_alone():
    """A chain cut at its end is sound in itself; the checkpoint handed over before is not met."""
    ck, ld = crew()
    handed_over = checkpoint("fern-bank", [*ck.chain, *ld.chain])
    assert verify(rows(ck, ld)[:-1]).sound
    assert checkpoint("fern-bank", [*ck.chain, *ld.chain[:-1]]).hash != handed_over.hash


def test_a_chain_cut_at_its_end_is_shown_by_whoever_had_seen_the_end():
    """ld wrote its last having seen ck-6: ck cannot be cut to 4 without its being noticed."""
    ck, ld = crew()
    ld.meets(ck)
    ld.says("remark", "fern-bank", {"text": "all of ck is seen"})
    assert verify(rows(ck, ld)).sound
    verdict = verify([*rows(ck)[:4], *rows(ld)])
    assert first(verdict) == ("ld-7", 6) and len(verdict.faults) == 1
    assert ck.chain[5].hash[:12] in verdict.faults[0].problem
    # All of one writer dropped is no different.
    assert first(verify(rows(ld))) == ("ld-7", 6)


def test_a_line_dropped_from_the_middle_is_told_once_though_others_had_seen_it():
    ck, ld = crew()
    ld.heads["ck"] = ck.chain[3].hash
    ld.says("remark", "fern-bank", {"text": "ck is seen to its fourth"})
    verdict = verify([*rows(ck)[:3], *rows(ck)[4:], *rows(ld)])
    assert [fault.entry for fault in verdict.faults] == ["ck-4"]


def test_a_content_that_is_not_here_is_counted_and_named():
    before = rows(*crew())
    stored, received, link, _ = before[3]
    before[3] = (stored, received, link, None)
    verdict = verify(before)
    assert verdict.sound and verdict.withheld == 1
    assert verdict.without == ("ck-4",)


def test_the_whole_chain_can_be_worked_again_by_hand():
    """With hashlib and json alone: nothing of this program."""
    ck, ld = crew()
    for tablet in (ck, ld):
        prev = None
        for _, _, link, content in rows(tablet):
            said = json.loads(link)
            assert said["prev"] == prev
            assert said["content"] == hashlib.sha256(content or b"").hexdigest()
            prev = hashlib.sha256(link).hexdigest()


def loosened(folder: Path) -> sqlite3.Connection:
    """Open the database as a vandal would: without its triggers."""
    connection = sqlite3.connect(folder / "record.sqlite", isolation_level=None)
    triggers = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    for (name,) in triggers.fetchall():
        connection.execute(f"DROP TRIGGER {name}")
    return connection


STONES = sheet("## remark\n\n" + "\n\n".join(f"Stone {n}." for n in range(6)), writer="ck")
VANDALS: list[tuple[str, str, str]] = [
    (
        "changes a word",
        "UPDATE contents SET line = replace(CAST(line AS TEXT), 'Stone 2', 'Stone 9')",
        "ck-3",
    ),
    ("drops an entry", "DELETE FROM links WHERE writer = 'ck' AND seq = 4", "ck-4"),
    ("renumbers", "UPDATE links SET seq = seq + 100 WHERE writer = 'ck' AND seq = 2", "ck-2"),
    (
        "swaps two numbers",
        "UPDATE links SET seq = 7 - seq WHERE writer = 'ck' AND seq IN (3, 4)",
        "ck-3",
    ),
    ("gives a line to another", "UPDATE links SET writer = 'ld' WHERE writer = 'ck'", "ck"),
]


@pytest.mark.parametrize(("what", "sql", "named"), VANDALS, ids=[v[0] for v in VANDALS])
def test_verify_names_what_a_vandal_did(log: Log, folder: Path, what: str, sql: str, named: str):
    post_text(log, STONES)
    assert verify(log.lines()).sound
    log.close()
    connection = loosened(folder)
    changed = connection.execute(sql)
    assert changed.rowcount > 0
    connection.close()
    with Log.open(folder) as again:
        verdict = verify(again.lines())
    if what == "gives a line to another":
        # The columns are an index only: the lines still say whose they are, and all is there.
        assert verdict.sound or verdict.faults[0].entry.startswith("ck")
    else:
        assert not verdict.sound and verdict.faults[0].entry == named


@pytest.mark.parametrize(
    "harm",
    [
        lambda path: path.unlink(),
        lambda path: path.write_bytes(path.read_bytes() + b" "),
        lambda path: path.write_bytes(path.read_bytes()[:-1]),
    ],
    ids=["gone", "longer", "shorter"],
)
def test_a_kept_sheet_that_is_gone_or_changed_is_named(
    log: Log, folder: Path, harm: Callable[[Path], object]
):
    post_text(log, STONES)
    assert missing_files(log.files, log.entries()) == ()
    name = hashlib.sha256(SITE.encode()).hexdigest()
    harm(folder / "sheets" / f"{name}.md")
    ((entry, what),) = missing_files(log.files, log.entries())
    assert entry == "ld-2" and name[:12] in what


def test_two_pictures_whose_files_were_swapped_are_both_named(log: Log, folder: Path):
    """Each lies under the other's hash: both are there, and neither is what was recorded."""
    for n, shade in enumerate(("white", "black")):
        Image.new("RGB", (8, 8), shade).save(folder / f"{n}.png")
    photos = sheet(
        "## remark\n\nStone.\n\n![wide, looking east, one](0.png)\n\n"
        "![wide, looking west, two](1.png)"
    )
    post_text(log, photos, folder=folder)
    assert missing_files(log.files, log.entries()) == ()
    one, two = sorted((folder / "photos").iterdir())
    was = one.read_bytes()
    one.write_bytes(two.read_bytes())
    two.write_bytes(was)
    named = missing_files(log.files, log.entries())
    assert len(named) == 2 and all("was changed" in what for _, what in named)
