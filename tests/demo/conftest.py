"""The demo's record is asked as a person asks it."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def ask(built: Path) -> Callable[..., str]:
    """Return a function that runs `asburied` with the words given on the demo's record."""

    def asburied(*words: str, status: int = 0, record: str = "larch-end") -> str:
        own = {
            "ASBURIED_RECORD": str(built / record),
            "ASBURIED_NOW": "2025-06-30T08:00:00-06:00",
            "ASBURIED_CONFIG": str(built / "keys"),
        }
        done = subprocess.run(
            [Path(sys.executable).parent / "asburied", *words],
            env={**os.environ, **own},
            cwd=built / "sheets",
            text=True,
            capture_output=True,
            check=False,
        )
        assert done.returncode == status, done.stdout + done.stderr
        return done.stdout

    return asburied
