"""Which valve drains the drip leg, before and after the demo's two plates were found swapped.

The answers are those written down beside the demo's plan: known 2022-05-20 it is DV-2, known
2022-05-24 it is DV-1. The record is made of the demo's sheets, by the commands a crew types.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "demo"
LAST = "23-2022-05-23-ck-valves.md"
PLATES = ("DV-1", "DV-2")


@pytest.fixture(scope="module")
def ask(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., str]:
    place = tmp_path_factory.mktemp("swapped")
    sheets = shutil.copytree(DEMO / "sheets", place / "sheets")
    subprocess.run([sys.executable, DEMO / "draw_photos.py", sheets / "photos"], check=True)

    def asburied(*words: str, now: str = "2022-05-24T20:00:00-06:00") -> str:
        own = {"ASBURIED_RECORD": str(place / "larch-end"), "ASBURIED_NOW": now}
        done = subprocess.run(
            [Path(sys.executable).parent / "asburied", *words],
            env={**os.environ, **own, "ASBURIED_SALT_SEED": "larch-end"},
            cwd=sheets,
            text=True,
            capture_output=True,
            check=False,
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    lines = (sheets / "written.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split() for line in lines if line.strip() and not line.startswith("#")]
    asburied("init", now=pairs[0][1])
    for name, moment in pairs:
        if name <= LAST:
            asburied("post", name, now=moment)
    return asburied


def drains_the_drip_leg(ask: Callable[..., str], known: str) -> list[str]:
    told = {tag: ask("show", tag, "--as-known-at", known) for tag in PLATES}
    return [tag for tag, words in told.items() if "from the drip leg to D-1" in words]


def test_known_on_friday_the_plate_on_the_drain_of_the_drip_leg_is_dv_2(ask) -> None:
    assert drains_the_drip_leg(ask, "2022-05-20T20:00") == ["DV-2"]


def test_known_on_tuesday_it_is_dv_1_and_one_entry_says_why(ask) -> None:
    assert drains_the_drip_leg(ask, "2022-05-24T20:00") == ["DV-1"]
    assert "written of DV-2; the tags were swapped" in ask("show", "DV-1")


def test_how_the_valves_were_left_on_thursday_follows_the_swap(ask) -> None:
    """Left under the wrong plates: the pump's valve open, the drain's shut; so DV-1 was shut."""
    thursday = [line for line in ask("history", "DV-1").split("2022-05-19 ") if "left as" in line]
    assert len(thursday) == 1
    assert "written of DV-2" in thursday[0] and "state: shut" in thursday[0]
