"""The demo's record, made of its sheets by the commands a crew types; built once."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "demo"


@pytest.fixture(scope="session")
def ask(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., str]:
    place = tmp_path_factory.mktemp("demo")
    sheets = shutil.copytree(DEMO / "sheets", place / "sheets")
    subprocess.run([sys.executable, DEMO / "draw_photos.py", sheets / "photos"], check=True)

    def asburied(*words: str, now: str = "2022-10-26T08:00:00-06:00", status: int = 0) -> str:
        own = {"ASBURIED_RECORD": str(place / "larch-end"), "ASBURIED_NOW": now}
        done = subprocess.run(
            [Path(sys.executable).parent / "asburied", *words],
            env={**os.environ, **own, "ASBURIED_SALT_SEED": "larch-end"},
            cwd=sheets,
            text=True,
            capture_output=True,
            check=False,
        )
        assert done.returncode == status, done.stdout + done.stderr
        return done.stdout

    lines = (sheets / "written.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split() for line in lines if line.strip() and not line.startswith("#")]
    asburied("init", now=pairs[0][1])
    for name, moment in pairs:
        asburied("post", name, now=moment)
    return asburied
