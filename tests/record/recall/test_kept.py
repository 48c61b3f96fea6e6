"""What is kept for the next recall gives the same answer, and is not believed over the records."""

from __future__ import annotations

import hashlib
import os
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from record.log import Log, Office, Place
from record.recall import NotNarrowed, Recall, keeping, recall
from record.recall import many as reading
from record.recall.kept import Spoiled
from record.recall.many import asked_of, kept_sites, records_in, sites_at
from record.recall.words import recall_words
from tests.office import Server
from tests.record.building import day
from tests.record.recall.test_ask import DAY, NOTICE, RUN, lists, site, valve
from tests.record.records import post_text
from tests.typed import asburied

LOTS = {"fern-bank": "V-0291", "gorse-hill": "not recorded", "holly-lane": "V-0290"}


@pytest.fixture(params=["SQLite", "PostgreSQL"])
def fleet(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Place:
    """Three sites in a folder, or in one database."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    at: Place = tmp_path / "sites"
    if request.param == "PostgreSQL":
        server: Server = request.getfixturevalue("office_server")
        at = Office(server.url(server.database()))
    for tag, lot in LOTS.items():
        with Log.make(one(at, tag)) as log:
            post_text(log, day(DAY, "ld", site(tag), RUN, valve("OV-1", f"lot: {lot}"), site=tag))
    rest(at)
    return at


def one(at: Place, tag: str) -> Place:
    return at.of(tag) if isinstance(at, Office) else at / tag


def rest(at: Place) -> None:
    """Let the files of a folder be of a while ago."""
    if isinstance(at, Path):
        for path in at.glob("*/record.sqlite*"):
            then = time.time_ns() - 10**10
            os.utime(path, ns=(then, then))


def asked(at: Place, what: str = "V-0291") -> dict[str, list[str]]:
    """Ask of what is kept, and hold it against what every record says when it is read whole."""
    records = records_in(at)
    plain, _ = sites_at(records)

    def said(every: bool) -> Recall:
        return asked_of(
            at, records, lambda s, faults: recall(s, what, not_read=faults, every=every)
        )

    full = recall(plain, what)
    assert said(True) == full
    assert said(False) == replace(full, ruled_out=())
    return lists(full)


FOUND = {
    "has it": ["fern-bank OV-1"],
    "replaced": [],
    "not recorded": ["gorse-hill OV-1"],
    "ruled out": ["holly-lane OV-1"],
}


def test_the_second_asking_reads_no_record_and_says_the_same(
    fleet: Place, monkeypatch: pytest.MonkeyPatch
):
    assert asked(fleet) == FOUND

    def never(*_: object) -> str:
        raise AssertionError("a record was read")

    monkeypatch.setattr(reading, "_read", never)
    sites, _ = kept_sites(fleet, records_in(fleet))
    assert lists(recall(sites, "V-0291")) == FOUND
    with pytest.raises(NotNarrowed):
        recall(sites, "V-9999")


def test_what_came_in_since_is_seen(fleet: Place):
    assert asked(fleet) == FOUND
    with Log.open(one(fleet, "fern-bank")) as log:
        post_text(log, day("2031-05-20", "te", valve("OV-1", "lot: V-0777"), NOTICE,
                           site="fern-bank"))  # fmt: skip
    assert asked(fleet)["replaced"] == ["fern-bank OV-1"]
    rest(fleet)
    assert asked(fleet)["replaced"] == ["fern-bank OV-1"]
    assert asked(fleet, "RN-7")["replaced"] == ["fern-bank OV-1"]


def test_a_file_written_a_moment_ago_is_read_again(tmp_path: Path):
    """Two writes within one tick of the file system's clock leave the same state behind."""
    with Log.make(tmp_path / "fern-bank") as log:
        post_text(log, day(DAY, "ld", site("fern-bank"), RUN))
    assert [mark for _, mark in records_in(tmp_path).values()] == [""]
    rest(tmp_path)
    assert [bool(mark) for _, mark in records_in(tmp_path).values()] == [True]


@pytest.mark.parametrize("what", ["names", "pieces"])
@pytest.mark.parametrize("change", ["cut", "flip", "words", "gone", "other"])
def test_what_is_kept_is_believed_only_as_it_was_sealed_and_only_that_site_is_read_again(
    fleet: Place, change: str, what: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """``other`` puts one site's file in the place of another's: whole, and not of this site."""
    assert asked(fleet) == FOUND
    path = kept_of(tmp_path, "fern-bank", what)
    data = path.read_bytes()
    match change:
        case "cut":
            path.write_bytes(data[:-3])
        case "flip":
            at = data.index(b"v-0291")
            path.write_bytes(data[:at] + b"w" + data[at + 1 :])
        case "words":
            path.write_bytes(b"[]")
        case "gone":
            path.unlink()
        case _:
            path.write_bytes(kept_of(tmp_path, "gorse-hill", what).read_bytes())
    read = counted(monkeypatch)
    kept = asked_of(fleet, records_in(fleet), lambda sites, _: recall(sites, "V-0291"))
    assert lists(kept) == FOUND
    assert read == ["fern-bank"]
    read.clear()
    asked_of(fleet, records_in(fleet), lambda sites, _: recall(sites, "V-0291"))
    assert read == []


def test_a_site_that_does_not_bear_the_name_is_answered_without_its_pieces(
    fleet: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """holly-lane has another lot: its pieces may be gone, and it is ruled out all the same."""
    assert asked(fleet) == FOUND
    kept_of(tmp_path, "holly-lane", "pieces").unlink()
    read = counted(monkeypatch)
    sites, _ = kept_sites(fleet, records_in(fleet))
    answer = recall(sites, "V-0291", every=False)
    assert answer.ruled_out_at == {"holly-lane": 1} and answer.ruled_out == ()
    assert "RULED OUT (1): holly-lane 1; --every lists them" in list(recall_words(answer))
    with pytest.raises(Spoiled):
        recall(sites, "V-0291", every=True)
    assert read == []


def test_where_nothing_can_be_kept_the_answer_is_the_same(
    fleet: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(keeping, "write", lambda *_: False)
    assert asked(fleet) == FOUND
    assert not [*tmp_path.rglob("*.pieces")]


def test_another_reader_and_another_day_are_never_asked_of_what_is_kept(tmp_path: Path):
    """The lot is the owner's alone; a technician is not told of it by the owner's own files."""
    hidden = valve("OV-1", "lot: V-0291", "readers: owner")
    with Log.make(tmp_path / "fern-bank") as log:
        post_text(log, day(DAY, "ld", site("fern-bank"), RUN, hidden, site="fern-bank"))
    rest(tmp_path)
    for reader, status, says in (("owner", 1, "HAS IT (1)"), ("technician", 1, "no record here")):
        done = asburied("--record", str(tmp_path), "recall", "V-0291", "--reader", reader)
        assert done.returncode == status and says in done.stdout + done.stderr
    done = asburied("--record", str(tmp_path), "recall", "V-0291", "--as-of", "2031-05-01")
    assert "HAS IT (1)" not in done.stdout


def counted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that grows by the name of each record that is read."""
    names: list[str] = []
    really = reading._read

    def told(name: str, *more: Any) -> Any:
        names.append(name)
        return really(name, *more)

    monkeypatch.setattr(reading, "_read", told)
    return names


def kept_of(tmp_path: Path, tag: str, what: str) -> Path:
    (path,) = tmp_path.rglob(f"{hashlib.sha256(tag.encode()).hexdigest()[:32]}.{what}")
    return path


def test_a_database_is_asked_as_a_whole_or_one_site_of_it(fleet: Place):
    assert set(records_in(fleet)) == set(LOTS)
    assert set(records_in(one(fleet, "holly-lane"))) == {"holly-lane"}
