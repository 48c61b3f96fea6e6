"""The demo's record is asked as a person asks it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.typed import asburied


@pytest.fixture(scope="session")
def ask(built: Path) -> Callable[..., str]:
    """Return a function that runs `asburied` with the words given on the demo's record."""

    def asked(*words: str, status: int = 0, record: str = "larch-end") -> str:
        done = asburied(
            *words,
            cwd=built / "sheets",
            ASBURIED_RECORD=str(built / record),
            ASBURIED_NOW="2025-06-30T08:00:00-06:00",
            ASBURIED_CONFIG=str(built / "keys"),
        )
        assert done.returncode == status, done.stdout + done.stderr
        return done.stdout

    return asked
