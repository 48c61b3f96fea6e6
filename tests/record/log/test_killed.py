"""Kill -9 at any call of any command that writes: what is left is what was, or all of the new.

A few points each by default; ``ASBURIED_KILLS=300`` and another ``ASBURIED_KILLS_SEED`` for more.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.record.log.to_kill import COMMANDS

ROOT = Path(__file__).parents[3]
POINTS = os.environ.get("ASBURIED_KILLS", "8")
SEED = os.environ.get("ASBURIED_KILLS_SEED", "1")


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_killed_at_any_call_leaves_all_or_nothing_and_can_be_given_again(
    tmp_path: Path, name: str
):
    done = subprocess.run(
        [sys.executable, "-m", "tests.record.log.killed", name, POINTS, SEED, str(tmp_path)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
    )
    assert (done.stdout, done.stderr, done.returncode) == ("", "", 0)
