"""The demo's record, made by demo/build itself, but for the manual; built once."""

import fcntl
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

BUILD = Path(__file__).parents[2] / "demo" / "build"


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder with the record, the checker's tablet and the two other sites."""
    own = tmp_path_factory.getbasetemp()
    # Each core's folder lies in that of the whole run: whoever comes first builds for all.
    shared = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
    with (shared / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (shared / "demo").exists():
            _build(shared / "demo-begun")
            (shared / "demo-begun").rename(shared / "demo")
    return shared / "demo"


def _build(out: Path) -> None:
    commands = Path(sys.executable).parent
    path = f"{commands}{os.pathsep}{os.environ.get('PATH', '')}"
    done = subprocess.run(
        [sys.executable, BUILD, "--out", out, "--without-manual"],
        env={**os.environ, "PATH": path},
        text=True,
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


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
