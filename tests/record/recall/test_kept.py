"""What is kept for the next recall gives the same answer, and is not believed over the records."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from record.log import Log, Office, Place
from record.recall import NotNarrowed, recall
from record.recall import many as reading
from record.recall.kept import NAME
from record.recall.many import kept_sites, records_in, sites_at
from tests.office import Server
from tests.record.building import day
from tests.record.recall.test_ask import DAY, NOTICE, RUN, lists, site, valve
from tests.record.records import post_text

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
    sites, faults = kept_sites(at, records_in(at))
    assert faults == ()
    plain, _ = sites_at(records_in(at))
    said = [recall(each, what) for each in (sites, plain)]
    assert said[0] == said[1]
    return lists(said[0])


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


@pytest.mark.parametrize("change", ["cut", "flip", "words"])
def test_what_is_kept_is_believed_only_with_its_seal(fleet: Place, change: str, tmp_path: Path):
    assert asked(fleet) == FOUND
    (path,) = [*tmp_path.rglob(f"*{NAME}")]
    data = bytearray(path.read_bytes())
    if change == "cut":
        data = data[:-3]
    elif change == "flip":
        data[data.index(b"v-0291")] ^= 1
    else:
        data = bytearray(b"[]")
    path.write_bytes(data)
    assert asked(fleet) == FOUND


def test_a_database_is_asked_as_a_whole_or_one_site_of_it(fleet: Place):
    assert set(records_in(fleet)) == set(LOTS)
    assert set(records_in(one(fleet, "holly-lane"))) == {"holly-lane"}
