"""A folder of records, asked by command: one that cannot be read is named and stops no other."""

import json
import os
import shutil
import subprocess
import sys
import time

import pytest

from record.log import Log, Office
from tests.record.building import day
from tests.record.recall.test_ask import DAY, RUN, site, valve
from tests.record.records import post_text
from tests.typed import asburied


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Two sites and a file that is no record."""
    into = tmp_path_factory.mktemp("sites")
    for tag, lot in (("fern-bank", "V-0291"), ("gorse-hill", "not recorded")):
        with Log.make(into / tag) as log:
            post_text(log, day(DAY, "ld", site(tag), RUN, valve("OV-1", f"lot: {lot}"), site=tag))
    (into / "torn").mkdir()
    (into / "torn" / "record.sqlite").write_bytes(b"SQLite format 3\0" + b"\xff" * 4000)
    return into


def test_a_folder_is_asked_as_a_whole_and_leaves_with_1_while_work_is_left(folder):
    done = asburied("--record", str(folder), "recall", "V-0291", "--json")
    answer = json.loads(done.stdout)
    assert [each["site"] for each in answer["has_it"]] == ["fern-bank"]
    assert [each["site"] for each in answer["not_recorded"]] == ["gorse-hill"]
    assert answer["looked_at"] == 2 and answer["not_read"][0].startswith("torn: ")
    assert done.returncode == 1


def test_one_record_alone_can_be_asked_and_what_no_record_names_is_asked_back_for(folder):
    done = asburied("--record", str(folder / "fern-bank"), "recall", "V-0291")
    assert "RECALL of V-0291, asked of 1 record." in done.stdout and done.returncode == 1
    done = asburied("--record", str(folder / "fern-bank"), "recall", "V-1")
    assert "--kind valve" in done.stderr and done.returncode == 1


def test_a_folder_without_records_and_a_kind_that_is_none_are_told(folder, tmp_path):
    done = asburied("--record", str(tmp_path), "recall", "V-0291")
    assert done.returncode == 2 and "no folder in it is one" in done.stderr
    done = asburied("--record", str(folder), "recall", "V-0291", "--kind", "vlave")
    assert done.returncode == 2 and "no kind of thing" in done.stderr


def test_a_moment_before_anything_was_written_knows_of_nothing(folder):
    done = asburied("--record", str(folder), "recall", "V-0291", "--as-known-at", "2020-01-01")
    assert "nothing was recorded in it by then" in done.stdout + done.stderr


TWICE = """
import sys
from manual.cli import main
try:
    main()
finally:
    slow = {"sqlalchemy", "alembic", "record.place", "record.fold", "record.readers"}
    print("STARTED", sorted(slow & sys.modules.keys()), file=sys.stderr)
"""


def recalled(place, **more):
    """Ask in a process of its own, and say which of what is long to start it started."""
    words = ("--record", place, "recall", "V-0291")
    done = subprocess.run(
        [sys.executable, "-c", TWICE, *words],
        env={**os.environ, **more},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout, done.stderr.strip().splitlines()[-1]


def test_what_was_asked_before_is_answered_without_starting_what_reads_a_record(folder, tmp_path):
    """SQLAlchemy and all that reads a record take longer to start than many sites to ask."""
    sites = tmp_path / "sites"
    for tag in ("fern-bank", "gorse-hill"):
        shutil.copytree(folder / tag, sites / tag)
        then = time.time_ns() - 10**10  # long enough ago that it is kept
        os.utime(sites / tag / "record.sqlite", ns=(then, then))
    own = {"XDG_STATE_HOME": str(tmp_path / "state"), "XDG_CACHE_HOME": str(tmp_path / "cache")}
    first, started = recalled(str(sites), **own)
    assert "sqlalchemy" in started and "record.fold" in started
    again, started = recalled(str(sites), **own)
    assert again == first and started == "STARTED []"


def test_an_office_that_was_asked_before_is_answered_without_starting_sqlalchemy(
    office_server, tmp_path
):
    url = office_server.url(office_server.database())
    with Log.make(Office(url, "fern-bank")) as log:
        post_text(log, day(DAY, "ld", site("fern-bank"), RUN, valve("OV-1", "lot: V-0291")))
    own = {
        "XDG_STATE_HOME": str(tmp_path / "state"),
        "XDG_CACHE_HOME": str(tmp_path / "cache"),
        "PGPASSFILE": str(office_server.password_file),
    }
    first, started = recalled(url, **own)
    assert "HAS IT (1)" in first and "sqlalchemy" in started
    again, started = recalled(url, **own)
    assert again == first and started == "STARTED []"
