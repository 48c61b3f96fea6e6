"""One record makes the same files on two machines that have nothing in common, on two days."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WORK = """
import hashlib, json, os, sys
from pathlib import Path

import time_machine

day, umask, folder = sys.argv[1:]
os.umask(int(umask, 8))
with time_machine.travel(day, tick=True):
    from manual.build import build
    from record.log import Log

    with Log.open(Path(folder)) as log:
        built = build(log.entries())
print(json.dumps(dict(built.hashes())))
"""
#: A machine with no font at all, so that every letter must come from the package.
NO_FONTS = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig><dir>{here}/no-fonts</dir><cachedir>{here}/cache</cachedir></fontconfig>
"""


@pytest.fixture
def made(folder, tmp_path):
    """Return a function that builds on a machine as told, and returns the hash of each file."""

    def on(day, umask, *, copy, **environment):
        place = shutil.copytree(folder, tmp_path / copy)
        away = tmp_path / f"{copy}-home"
        away.mkdir()
        kept = {name: os.environ[name] for name in ("PATH",)}
        done = subprocess.run(
            [sys.executable, "-c", WORK, day, umask, place],
            cwd=away,
            env={**kept, "PYTHONPATH": str(ROOT), "HOME": str(away), **environment},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        assert done.stderr == ""
        return json.loads(done.stdout)

    return on


def test_two_machines_on_two_days_make_the_same_bytes(made, tmp_path):
    bare = tmp_path / "fonts.conf"
    bare.write_text(NO_FONTS.format(here=tmp_path), encoding="utf-8")
    one = made(
        "2031-06-02T08:00:00Z",
        "022",
        copy="one",
        TZ="America/Denver",
        LC_ALL="C.UTF-8",
        PYTHONHASHSEED="1",
    )
    other = made(
        "2044-12-31T23:59:30Z",
        "077",
        copy="the-other",
        TZ="Asia/Kolkata",
        LC_ALL="tr_TR.UTF-8",
        LANGUAGE="tr",
        PYTHONHASHSEED="20481",
        FONTCONFIG_FILE=str(bare),
        SOURCE_DATE_EPOCH="1",
    )
    assert one == other
    assert set(one) == {"pdf", "html", "calendar", "emergency", "cards"}
