"""Tests leave nothing in the home of whoever runs them."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest


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
