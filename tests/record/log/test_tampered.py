"""Whatever is done to lines and files by who owns the disk or the database, `verify` names it.

Every test runs on SQLite, encrypted and on PostgreSQL, there as the owner of the tables with the
triggers off: what each names must be the same.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import pytest
import sqlalchemy as sa
from msgspec import structs

from record.entry import Entry, checkpoint, seal
from record.log import Folder, Log, Office, Place, checked, verified
from record.log.kept import missing_files
from record.log.sealed import SealedFiles
from record.log.verifying import Verdict
from tests.record.log.test_contract import encrypted, new_place  # noqa: F401  fixtures
from tests.record.records import Tablet
from tests.typed import asburied

RECEIVED = "2031-06-01T12:00:00Z"
NewPlace = Callable[[], Place]


def crew(log: Log) -> tuple[list[Entry], list[Entry]]:
    """Two chains of six, each entry having seen the other's before it; three name kept files."""
    ck, ld = Tablet("ck"), Tablet("ld")
    for n in range(6):
        ck.meets(ld)
        ck.says("remark", "fern-bank", {"text": f"ck {n}"})
        ld.meets(ck)
        kept = log.files.keep("photos", f"picture {n}".encode(), ".jpg")
        body = {"file": f"{n}.jpg", "sha256": kept, "caption": "wide"}
        kind, said = ("photographed", body) if n % 2 else ("remark", {"text": f"ld {n}"})
        ld.says(kind, "fern-bank", said)
    with log.writing() as writing:
        writing.append([*ck.chain, *ld.chain], received=RECEIVED)
    return ck.chain, ld.chain


@dataclass
class Vandal:
    """Somebody with all rights over the tables and the files of a record."""

    place: Place
    ck: Sequence[Entry]
    ld: Sequence[Entry]

    def __call__(self, *statements: str, **values: object) -> None:
        with Log.open(self.place) as log, log.engine.begin() as connection:
            for statement in (*self._triggers_off(), *statements):
                connection.execute(sa.text(statement), values)

    def _triggers_off(self) -> Iterator[str]:
        for table in ("links", "contents", "kept"):
            if isinstance(self.place, Office):
                yield f"ALTER TABLE {table} DISABLE TRIGGER USER"
            elif table != "kept":
                yield from (
                    f"DROP TRIGGER IF EXISTS {table}_no_{what}"
                    for what in ("update", "delete", "replace")
                )

    def columns(self, table: str) -> tuple[str, str]:
        """Return what a row put in has more at an office: the site."""
        more = isinstance(self.place, Office) and table != "links"
        return ("site, ", "'fern-bank', ") if more else ("", "")

    def put_file(self, sha256: str, data: bytes | None) -> None:
        """Put other bytes under a kept file's name, or take it away."""
        with Log.open(self.place) as log:
            if not isinstance(self.place, Office):
                self._beside(log, sha256, data)
                return
        if data is None:
            self("DELETE FROM kept WHERE sha256 = :sha256", sha256=sha256)
        else:
            self("UPDATE kept SET data = :data WHERE sha256 = :sha256", sha256=sha256, data=data)

    def _beside(self, log: Log, sha256: str, data: bytes | None) -> None:
        if data is not None:
            log.files.put("photos", sha256, ".jpg", data)
            return
        files = log.files
        if isinstance(files, SealedFiles):
            files.place("photos", sha256).unlink()
        else:
            assert isinstance(files, Folder)
            files.kept("photos", sha256, ".jpg").unlink()


@pytest.fixture
def vandal(new_place: NewPlace) -> Vandal:  # noqa: F811
    place = new_place()
    with Log.make(place) as log:
        ck, ld = crew(log)
    return Vandal(place, ck, ld)


def told(place: Place) -> tuple[Verdict, tuple[tuple[str, str], ...]]:
    with Log.open(place) as log:
        verdict, entries = verified(log.lines())
        files = missing_files(log.files, entries)
        quick = checked(log)  # what the command asks says the same, in less time
        assert quick.verdict == verdict and missing_files(log.files, quick.named) == files
        assert quick.point == (checkpoint("fern-bank", entries) if entries else None)
        return verdict, files


def first(place: Place) -> tuple[str, str, int]:
    fault = told(place)[0].faults[0]
    return fault.entry, fault.problem, fault.sound_before


def test_untouched_it_is_sound(vandal: Vandal):
    verdict, files = told(vandal.place)
    assert verdict.sound and verdict.counts == (("ck", 6), ("ld", 6)) and files == ()


def turned(line: bytes, at: int) -> bytes:
    return line[:at] + bytes([line[at] ^ 1]) + line[at + 1 :]


@pytest.mark.parametrize("at", [9, -9])
def test_a_byte_of_a_link_that_was_turned_is_named(vandal: Vandal, at: int):
    entry = vandal.ld[2]
    line = turned(entry.link_line, at % len(entry.link_line))
    vandal("UPDATE links SET line = :line WHERE hash = :hash", line=line, hash=entry.hash)
    verdict, _ = told(vandal.place)
    said = " ".join(f"{fault.entry}: {fault.problem}" for fault in verdict.faults)
    assert "ld-3" in said or entry.hash[:12] in said


def test_a_word_of_a_content_that_was_changed_is_named(vandal: Vandal):
    entry = vandal.ld[2]
    assert entry.content_line is not None
    vandal(
        "UPDATE contents SET line = :line WHERE hash = :hash",
        line=entry.content_line.replace(b"ld 2", b"ld 7"),
        hash=entry.link.content,
    )
    number, problem, before = first(vandal.place)
    assert (number, before) == ("ld-3", 2) and "its content line was changed" in problem


@pytest.mark.parametrize("kept", [0.5, 0.0])
@pytest.mark.parametrize("table", ["links", "contents"])
def test_a_line_that_was_cut_short_is_named(vandal: Vandal, table: str, kept: float):
    entry = vandal.ld[2]
    line = entry.link_line if table == "links" else entry.content_line
    hash_ = entry.hash if table == "links" else entry.link.content
    assert line is not None
    vandal(
        f"UPDATE {table} SET line = :line WHERE hash = :hash",
        line=line[: int(len(line) * kept)],
        hash=hash_,
    )
    verdict, _ = told(vandal.place)
    named = {fault.entry for fault in verdict.faults}
    assert named & {"ld-3", f"the entry stored as {entry.hash[:12]}…"}


def test_an_entry_that_was_dropped_is_named_as_missing(vandal: Vandal):
    vandal("DELETE FROM links WHERE hash = :hash", hash=vandal.ld[2].hash)
    number, problem, before = first(vandal.place)
    assert (number, before) == ("ld-3", 2) and "it is missing" in problem


def test_a_content_that_was_dropped_is_named_as_not_held(vandal: Vandal):
    vandal("DELETE FROM contents WHERE hash = :hash", hash=vandal.ld[2].link.content)
    assert told(vandal.place)[0].without == ("ld-3",)


def test_entries_in_another_order_are_named(vandal: Vandal):
    vandal("UPDATE links SET seq = 7 - seq WHERE writer = 'ld' AND seq IN (3, 4)")
    number, problem, before = first(vandal.place)
    assert (number, before) == ("ld-3", 2) and "kept under another number" in problem


def test_two_lines_that_changed_places_are_named(vandal: Vandal):
    third, fourth = vandal.ld[2], vandal.ld[3]
    for to, line in ((third, fourth.link_line), (fourth, third.link_line)):
        vandal("UPDATE links SET line = :line WHERE hash = :hash", line=line, hash=to.hash)
    number, problem, before = first(vandal.place)
    assert third.hash[:12] in number and before == 2 and "was changed" in problem


def forged(entry: Entry) -> Entry:
    assert entry.content is not None
    content = structs.replace(entry.content, body={"text": "forged"})
    return seal(
        content, site=entry.link.site, writer=entry.link.writer, seq=entry.link.seq,
        recorded=entry.link.recorded, prev=entry.link.prev,
        salt=b"\1" * 16,
    )  # fmt: skip


def put_in(vandal: Vandal, entry: Entry) -> None:
    vandal(
        "INSERT INTO links (hash, site, writer, seq, content, received, line) "
        "VALUES (:hash, 'fern-bank', :writer, :seq, :content, :received, :line)",
        hash=entry.hash, writer=entry.link.writer, seq=entry.link.seq, content=entry.link.content,
        received=RECEIVED, line=entry.link_line,
    )  # fmt: skip
    names, values = vandal.columns("contents")
    vandal(
        f"INSERT INTO contents ({names}hash, kind, about, line) "
        f"VALUES ({values}:hash, 'remark', 'fern-bank', :line)",
        hash=entry.link.content, line=entry.content_line,
    )  # fmt: skip


def test_an_entry_put_in_place_of_another_breaks_the_one_after_it(vandal: Vandal):
    vandal("DELETE FROM links WHERE hash = :hash", hash=vandal.ld[2].hash)
    put_in(vandal, forged(vandal.ld[2]))
    number, problem, before = first(vandal.place)
    assert (number, before) == ("ld-4", 3) and "rests on" in problem


def test_an_entry_put_in_beside_another_is_told_as_a_fork(vandal: Vandal):
    put_in(vandal, forged(vandal.ld[2]))
    verdict, _ = told(vandal.place)
    assert [sorted(each) for each in verdict.forks] == [
        sorted(f"ld-3/{one.hash[:4]}" for one in (vandal.ld[2], forged(vandal.ld[2])))
    ]


def test_an_end_that_was_cut_away_is_named_by_who_had_seen_it(vandal: Vandal):
    """ck-6 had seen ld-5, and nobody ld-6: of that only a checkpoint shows it."""
    vandal("DELETE FROM links WHERE writer = 'ld' AND seq >= 5")
    number, problem, _ = first(vandal.place)
    assert number == "ck-6" and vandal.ld[4].hash[:12] in problem and "cut at its end" in problem


def test_what_nobody_had_seen_of_an_end_is_shown_by_the_checkpoint_alone(vandal: Vandal):
    before = checkpoint("fern-bank", (*vandal.ck, *vandal.ld)).hash
    vandal("DELETE FROM links WHERE writer = 'ld' AND seq = 6")
    assert told(vandal.place)[0].sound
    done = asburied("--record", str(vandal.place), "verify", "--checkpoint", before, "--json")
    assert done.returncode == 1 and not json.loads(done.stdout)["held"][0]["extended"]


@pytest.mark.parametrize("harm", ["changed", "cut", "emptied", "gone", "swapped"])
def test_a_kept_file_that_is_not_what_its_name_says_is_named_at_its_entry(
    vandal: Vandal, harm: str
):
    """ld-2, ld-4 and ld-6 name pictures 1, 3 and 5."""
    whole = [f"picture {n}".encode() for n in range(6)]
    names = [hashlib.sha256(each).hexdigest() for each in whole]
    by_harm: dict[str, tuple[dict[int, bytes | None], list[str]]] = {
        "changed": ({3: b"another"}, ["ld-4"]),
        "cut": ({3: whole[3][:-1]}, ["ld-4"]),
        "emptied": ({3: b""}, ["ld-4"]),
        "gone": ({3: None}, ["ld-4"]),
        "swapped": ({1: whole[5], 5: whole[1]}, ["ld-2", "ld-6"]),
    }
    changes, named = by_harm[harm]
    for n, data in changes.items():
        vandal.put_file(names[n], data)
    verdict, files = told(vandal.place)
    assert verdict.sound and [number for number, _ in files] == named
    what = "is missing" if harm == "gone" else "was changed"
    assert all(what in problem for _, problem in files)


def test_the_command_says_so_and_leaves_with_one(vandal: Vandal):
    sha256 = hashlib.sha256(b"picture 3").hexdigest()
    vandal.put_file(sha256, b"another")
    vandal("DELETE FROM links WHERE hash = :hash", hash=vandal.ck[2].hash)
    done = asburied("--record", str(vandal.place), "verify")
    assert done.returncode == 1
    assert "ck-3: it is missing: ck-4 rests on an entry not here" in done.stdout
