"""Tests leave nothing in the home of whoever runs them."""

from __future__ import annotations

import fcntl
import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from tests.bench.day import demo_record
from tests.office import Server, logins, running

settings.register_profile("untimed", deadline=None)  # a busy machine is no fault
settings.load_profile("untimed")


@pytest.fixture(autouse=True, scope="session")
def _own_state(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Keep the key of indexes in a folder of the run; commands that are started inherit it."""
    before = os.environ.get("XDG_STATE_HOME")
    place = tmp_path_factory.mktemp("state")
    os.environ["XDG_STATE_HOME"] = str(place)
    yield place
    if before is None:
        del os.environ["XDG_STATE_HOME"]
    else:
        os.environ["XDG_STATE_HOME"] = before


@pytest.fixture(autouse=True)
def _held_to_its_schema(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hold whatever a command prints as JSON in a test's own process to its schema."""
    from record.cli import asking

    def held(whole: Any) -> None:
        from jsonschema import Draft202012Validator

        from record.described import schema_of

        if Path(sys.argv[0]).name != "asburied":  # typed in another way: which command is not told
            printed(whole)
            return
        words = sys.argv[1:]
        words = words[2:] if words[0] == "--record" else words
        command = " ".join(words[: 2 if words[0] == "manual" else 1])
        Draft202012Validator(schema_of(command)).validate(json.loads(json.dumps(whole)))
        printed(whole)

    printed = asking.print_json
    monkeypatch.setattr(asking, "print_json", held)


@pytest.fixture(scope="session")
def office_server() -> Iterator[Server]:
    """PostgreSQL, started when the first test asks for it."""
    with running() as server:
        logins(server)
        before = os.environ.get("PGPASSFILE")
        os.environ["PGPASSFILE"] = str(server.password_file)
        yield server
        if before is None:
            del os.environ["PGPASSFILE"]
        else:
            os.environ["PGPASSFILE"] = before


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the demo once, but for its manuals: a record, a checker's tablet, two other sites."""
    own = tmp_path_factory.getbasetemp()
    # Each core's folder lies in that of the whole run: whoever comes first builds for all.
    shared = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
    with (shared / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (shared / "demo").exists():
            demo_record(shared / "demo-begun")
            (shared / "demo-begun").rename(shared / "demo")
    return shared / "demo"
