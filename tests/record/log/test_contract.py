"""What a log does, on SQLite, encrypted and on PostgreSQL alike: every test here runs on all."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from record.cli.app import RECORD_VARIABLE
from record.index import as_built
from record.log import Folder, Log, LogFault, NotARecord, Office, Place, handed_over, merge, verify
from record.log.kept import missing_files
from record.secret import Words, asked, asking
from tests.office import CREW, Server
from tests.record.records import SITE, Tablet, post_text, sheet
from tests.typed import asburied

RECEIVED = "2031-06-01T12:00:00Z"
WORDS = "seven dry oaks"
NewPlace = Callable[[], Place]


@pytest.fixture
def encrypted(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """Every record made in a folder is encrypted, and its passphrase is where a command looks."""
    make = Log.make

    def sealed(place: Place, *, sealed_with: str | None = None) -> Log:
        return make(place, sealed_with=None if isinstance(place, Office) else WORDS)

    monkeypatch.setattr(Log, "make", staticmethod(sealed))
    (tmp_path / "words.txt").write_text(WORDS, encoding="utf-8")
    monkeypatch.setenv(RECORD_VARIABLE, str(tmp_path / "words.txt"))
    asking(Words(lambda _: iter([WORDS])))
    yield
    asking(None)


@pytest.fixture(params=["SQLite", "SQLCipher", "PostgreSQL"])
def new_place(request: pytest.FixtureRequest, tmp_path: Path) -> NewPlace:
    """Return a place where no record is yet, each time another."""
    made: list[Place] = []

    def folder() -> Place:
        made.append(tmp_path / f"record-{len(made) + 1}")
        return made[-1]

    def office() -> Place:
        server: Server = request.getfixturevalue("office_server")
        made.append(Office(server.url(server.database()), "fern-bank"))
        return made[-1]

    if request.param == "SQLCipher":
        request.getfixturevalue("encrypted")
    return office if request.param == "PostgreSQL" else folder


@pytest.fixture
def place(new_place: NewPlace) -> Place:
    """Return a place with the record of a site, and no more than its first sheet."""
    at = new_place()
    with Log.make(at) as log:
        post_text(log, SITE)
    return at


@pytest.fixture
def log(place: Place) -> Iterator[Log]:
    with Log.open(place) as log:
        yield log


def remark(words: str, **more: str) -> str:
    return sheet(f"## remark\n\n{words}", **more)


def test_the_lines_come_back_byte_for_byte(log: Log):
    recorded = post_text(log, remark("Größe ½, 7′ 4½″, and a tab\there.")).recorded
    kept = {stored: (link, content) for stored, _, link, content in log.lines()}
    for entry in recorded:
        assert kept[entry.hash] == (entry.link_line, entry.content_line)
    assert verify(log.lines()).sound


def test_an_entry_that_is_there_is_refused_and_nothing_else_of_the_batch_is_kept(log: Log):
    before = list(log.lines())
    new = Tablet("ck").says("remark", "fern-bank", {"text": "new"})
    with pytest.raises(LogFault), log.writing() as writing:
        writing.append([new, log.entries()[0]], received=RECEIVED)
    assert list(log.lines()) == before


def test_a_block_that_fails_leaves_no_trace(log: Log):
    before = list(log.lines())
    with pytest.raises(RuntimeError), log.writing() as writing:
        writing.append([Tablet("ck").says("remark", "fern-bank", {})], received=RECEIVED)
        raise RuntimeError
    assert list(log.lines()) == before


def test_chains_and_pieces_of_them_are_found_without_reading_all(log: Log):
    post_text(log, remark("One.", writer="ck"))
    chains, contents = log.chains()
    entries = log.entries()
    assert [(c.writer, c.entries, c.last) for c in chains] == [("ck", 2, 2), ("ld", 2, 2)]
    assert contents == len(entries) == 4
    assert [e.number for e in log.after("fern-bank", "ck", 2)] == ["ck-2"]
    assert {e.hash for e in log.some([e.hash for e in entries[1:3]])} == {
        e.hash for e in entries[1:3]
    }


def test_a_file_is_kept_once_and_found_by_its_hash(log: Log):
    name = log.files.keep("photos", b"a picture", ".jpg")
    assert log.files.keep("photos", b"a picture", ".jpg") == name
    found = log.files.found("photos", name)
    assert found is not None and (found.data, found.suffix) == (b"a picture", ".jpg")
    assert log.files.found("photos", "0" * 64) is None


def test_the_sheet_that_was_posted_is_kept_with_what_it_says(log: Log):
    post_text(log, remark("One."))
    assert missing_files(log.files, log.entries()) == ()


def test_what_is_found_by_its_index_is_what_is_read(log: Log, tmp_path: Path,
                                                    monkeypatch: pytest.MonkeyPatch):  # fmt: skip
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    for writer in ("ck", "te"):
        post_text(log, remark("One.", writer=writer))
        for _ in range(2):  # made, then taken
            assert as_built(log).entries == log.entries()
    assert log.cache("index.cache").exists()


def test_a_second_record_is_not_made_over_the_first(place: Place):
    with Log.open(place) as log:
        before = list(log.lines())
    with pytest.raises(LogFault, match="holds a record already"):
        Log.make(place)
    with Log.open(place) as log:
        assert list(log.lines()) == before


def test_where_there_is_no_record_it_is_said_so(new_place: NewPlace):
    with pytest.raises(NotARecord, match="is not a record"):
        Log.open(new_place())


def test_32_who_post_at_once_lose_nothing_and_fork_no_chain(place: Place):
    """Eight writers at four devices each, all on one site: 32 connections, 64 sheets."""

    words = asked()

    def posts(turn: int) -> int:
        with Log.open(place, words) as log:
            return sum(
                len(
                    post_text(
                        log,
                        remark(f"{turn} {n}", writer=f"w{turn % 8}", part=f"p{turn}-{n}"),
                        seed=f"{turn} {n}",
                    ).recorded
                )
                for n in range(2)
            )

    with ThreadPoolExecutor(32) as many:
        told = sum(many.map(posts, range(32)))
    with Log.open(place) as log:
        verdict = verify(log.lines())
        assert verdict.sound and not verdict.forks
        assert dict(verdict.counts) == {"ld": 2, **{f"w{n}": 16 for n in range(8)}}
        assert told == 128 == len(log.entries()) - 2


def copied(from_: Place, to: Place) -> list[tuple[str, bytes, bytes | None]]:
    with Log.make(to) as log:
        merge(log, [handed_over(from_)], received=RECEIVED)
        return [(stored, link, content) for stored, _, link, content in log.lines()]


def bytes_at(place: Place) -> list[tuple[str, bytes, bytes | None]]:
    with Log.open(place) as log:
        return [(stored, link, content) for stored, _, link, content in log.lines()]


def test_a_copy_on_the_other_database_and_back_has_the_same_bytes(
    office_server: Server, place: Place, tmp_path: Path
):
    with Log.open(place) as log:
        post_text(log, remark("One.", writer="ck"))
    there = Office(office_server.url(office_server.database()), "fern-bank")
    back = tmp_path / "back"
    assert copied(place, there) == bytes_at(place)
    assert copied(there, back) == bytes_at(place)
    for each in (there, back):
        with Log.open(each) as log:
            assert missing_files(log.files, log.entries()) == ()


def test_both_write_on_apart_and_the_union_is_the_same_on_both(office_server: Server, place: Place):
    there = Office(office_server.url(office_server.database()), "fern-bank")
    copied(place, there)
    for at, writer in ((place, "ck"), (there, "te")):
        with Log.open(at) as log:
            post_text(log, remark(f"By {writer}.", writer=writer))
    for at, other in ((place, there), (there, place)):
        with Log.open(at) as log:
            merge(log, [handed_over(other)], received=RECEIVED)
    assert bytes_at(place) == bytes_at(there) and len(bytes_at(place)) == 6


def test_the_commands_do_not_care_where_the_record_is(new_place: NewPlace, tmp_path: Path):
    at = new_place()
    if isinstance(at, Office):
        url, _, _ = str(at).partition("#")
        assert asburied("init", "--office", url).returncode == 0
        _granted(url)
    else:
        sealed = ["--sealed"] if RECORD_VARIABLE in os.environ else []
        assert asburied("--record", str(at), "init", *sealed).returncode == 0
        assert bool(Folder(at).sealed()) == bool(sealed)
    path = tmp_path / "site.md"
    path.write_text(SITE)

    def run(*words: str) -> subprocess.CompletedProcess[str]:
        who = str(at).replace("//office@", f"//{CREW}@")
        return asburied(*words, ASBURIED_RECORD=who, ASBURIED_NOW=RECEIVED)

    posted = run("post", str(path))
    assert posted.returncode == 0, posted.stderr
    said = run("say", "remark", "fern-bank", "text=A stone.", "--writer", "ck")
    assert said.returncode == 0, said.stderr
    assert "Fern Bank" in run("show", "fern-bank").stdout
    assert "All 4 entries match their seals: ck 2, ld 2." in run("verify").stdout


def _granted(url: str) -> None:
    import psycopg

    with psycopg.connect(url, autocommit=True) as connection:
        connection.execute(f"GRANT asburied_crew TO {CREW}")
