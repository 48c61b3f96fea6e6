"""What was handed over years ago is held against the record of today."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from record.cli import Refused
from record.cli.points import Received, of_checkpoint, of_edition
from record.entry import Entry, checkpoint
from record.log import Log
from tests.record.cli.test_every_command import Told, here
from tests.record.records import Tablet, post_text, sheet

__all__ = ["here"]  # the fixture


def crew() -> tuple[Tablet, Tablet]:
    ck, ld = Tablet("ck"), Tablet("ld")
    for n in range(3):
        ck.says("remark", "fern-bank", {"text": f"ck {n}"})
        ld.meets(ck)
        ld.says("remark", "fern-bank", {"text": f"ld {n}"})
    return ck, ld


def came(*batches: list[Entry]) -> Received:
    return [(f"2031-06-{n:02}", e.hash) for n, batch in enumerate(batches, 1) for e in batch]


def by_hand(*heads: tuple[str, int, str]) -> str:
    """SHA-256 of the site and a line per writer, as DEVELOPERS.md tells it: hashlib alone."""
    lines = ["fern-bank", *(f"{writer} {count} {head}" for writer, count, head in sorted(heads))]
    return hashlib.sha256("".join(f"{line}\n" for line in lines).encode()).hexdigest()


def head(tablet: Tablet, count: int) -> tuple[str, int, str]:
    return tablet.writer, count, tablet.chain[count - 1].hash


def test_a_checkpoint_of_any_day_since_is_extended_and_says_how_many_entries():
    """After ld-2, which had seen ck-2, both chains reached to 2: four entries."""
    ck, ld = crew()
    every = [*ck.chain, *ld.chain]
    for count in (1, 2, 3):
        printed = by_hand(head(ck, count), head(ld, count))
        for asked in (printed, printed[:8], printed.upper()):
            found = of_checkpoint(asked, every, came(every))
            assert (found.lacks, found.entries) == ((), 2 * count)


def test_a_checkpoint_between_two_merges_is_found_by_when_entries_came_in():
    """Nobody wrote an entry that had seen just this: only the order of coming in tells it."""
    ck, te = Tablet("ck"), Tablet("te")
    for n in range(3):
        ck.says("remark", "fern-bank", {"text": f"ck {n}"})
        te.says("remark", "fern-bank", {"text": f"te {n}"})
    every = [*ck.chain, *te.chain]
    printed = by_hand(head(ck, 2), head(te, 1))
    received = came(ck.chain[:2], te.chain[:1], [*ck.chain[2:], *te.chain[1:]])
    assert of_checkpoint(printed, every, received).lacks == ()
    assert of_checkpoint(printed, every, came(every)).lacks != ()


def test_a_record_cut_at_its_end_no_longer_extends_the_checkpoint():
    ck, ld = crew()
    printed = by_hand(head(ck, 3), head(ld, 3))
    left = [*ck.chain, *ld.chain[:-1]]
    ((entry, problem),) = of_checkpoint(printed, left, came(left)).lacks
    assert entry == printed[:16] and "gone or changed" in problem


def test_written_down_from_paper_the_heads_tell_which_entry_is_gone_and_which_is_another(
    tmp_path: Path,
):
    """The bars of the manual's table, hashes in groups, and one cut short to eight digits."""
    ck, ld = crew()
    other = Tablet("ck", chain=ck.chain[:2])
    other.says("remark", "fern-bank", {"text": "it was never so"})
    path = tmp_path / "paper.txt"
    long, short = ck.chain[2].hash, ld.chain[2].hash[:8]
    grouped = " ".join(long[n : n + 8] for n in range(0, 64, 8))
    path.write_text(f"fern-bank\n\n| ck | 3 | {grouped} |\nld 3 {short}…\n", encoding="utf-8")
    whole = [*ck.chain, *ld.chain]
    assert of_checkpoint(str(path), whole, ()).lacks == ()
    left = [*other.chain, *ld.chain[:1]]
    changed, gone = of_checkpoint(str(path), left, ()).lacks
    assert changed[0] == "ck-3" and other.chain[2].hash[:16] in changed[1]
    assert gone[0] == "ld-3" and "end at 1" in gone[1]
    no_ld = of_checkpoint(str(path), ck.chain, ()).lacks
    assert [entry for entry, _ in no_ld] == ["ld-3"] and "has none" in no_ld[0][1]


def test_the_heads_of_another_site_are_said_to_be_of_it(tmp_path: Path):
    ck, _ = crew()
    path = tmp_path / "paper.txt"
    path.write_text(f"oak-bank\nck 3 {ck.chain[2].hash}\n", encoding="utf-8")
    ((entry, problem),) = of_checkpoint(str(path), ck.chain, ()).lacks
    assert entry == "oak-bank" and "fern-bank" in problem


@pytest.mark.parametrize(
    "words", ["", "fern-bank\n", "fern-bank\nck three 00000000\n", "ck 3 0000\n", "fern bank\n"]
)
def test_what_is_no_checkpoint_is_refused_with_what_to_write(tmp_path: Path, words: str):
    path = tmp_path / "paper.txt"
    path.write_text(words, encoding="utf-8")
    with pytest.raises(Refused, match="such as") as refused:
        of_checkpoint(str(path), crew()[0].chain, ())
    assert refused.value.status == 2
    with pytest.raises(Refused, match="neither a checkpoint nor a file"):
        of_checkpoint(str(tmp_path / "nowhere"), crew()[0].chain, ())


def issued(ck: Tablet, ld: Tablet, *, point: str = "", number: int = 1) -> Entry:
    ld.meets(ck)
    found = point or by_hand(head(ck, len(ck.chain)), head(ld, len(ld.chain)))
    return ld.says("edition-issued", "fern-bank", {"edition": str(number), "checkpoint": found})


def test_an_edition_is_extended_by_a_record_that_only_grew():
    ck, ld = crew()
    issued(ck, ld)
    ck.says("remark", "fern-bank", {"text": "later"})
    found = of_edition(1, [*ck.chain, *ld.chain])
    assert (found.lacks, found.entries) == ((), 6)


def test_an_edition_whose_ground_was_cut_away_is_called_out():
    """ck's last entry before the edition is gone: the edition had seen it."""
    ck, ld = crew()
    entry = issued(ck, ld)
    ((number, problem),) = of_edition(1, [*ck.chain[:-1], *ld.chain]).lacks
    assert number == entry.number and by_hand(head(ck, 3), head(ld, 3))[:16] in problem


def test_an_edition_that_no_entry_tells_of_is_called_out():
    ck, ld = crew()
    issued(ck, ld, number=2)
    ((_, problem),) = of_edition(3, [*ck.chain, *ld.chain]).lacks
    assert "editions here: 2" in problem


def test_verify_leaves_with_1_where_the_record_was_cut_since(
    log: Log, folder: Path, here: Callable[..., Told], tmp_path: Path
):
    post_text(log, sheet("## remark\n\nOne.", writer="ck"))
    printed = checkpoint("fern-bank", log.entries())
    log.close()
    paper = tmp_path / "paper.txt"
    paper.write_text(printed.text, encoding="utf-8")
    for asked in (printed.hash[:8], str(paper)):
        status, out, _ = here("--record", str(folder), "verify", "--checkpoint", asked)
        assert status == 0 and "is extended by this record: all 4 entries" in out
    connection = sqlite3.connect(folder / "record.sqlite", isolation_level=None)
    names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for (name,) in names:
        connection.execute(f"DROP TRIGGER {name}")
    connection.execute("DELETE FROM links WHERE writer = 'ck' AND seq = 2")
    connection.close()
    assert here("--record", str(folder), "verify")[0] == 0  # whole in itself
    for asked in (printed.hash, str(paper)):
        status, out, _ = here("--record", str(folder), "verify", "--checkpoint", asked)
        assert status == 1 and "NOT extended" in out
    assert "ck-2: it was" in out
    status, out, _ = here("--record", str(folder), "verify", "--edition", "1", "--json")
    told = json.loads(out)
    assert status == 1 and told["sound"] is False
    assert told["held"][0]["extended"] is False
