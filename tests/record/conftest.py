"""A record folder made by the migrations and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from record.log import Log
from tests.record.records import SITE, post_text


@pytest.fixture(scope="session")
def _empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("empty") / "record"
    Log.make(path).close()
    return path


@pytest.fixture
def folder(_empty: Path, tmp_path: Path) -> Path:
    """An empty record's folder: a copy of one that the migrations made."""
    path = tmp_path / "record"
    path.mkdir()
    (path / "record.sqlite").write_bytes((_empty / "record.sqlite").read_bytes())
    return path


@pytest.fixture
def log(folder: Path) -> Iterator[Log]:
    """The log of a record that knows its site, and nothing more."""
    with Log.open(folder) as log:
        post_text(log, SITE, name="site.md")
        yield log
