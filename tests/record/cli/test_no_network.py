"""No command speaks to a network: a record in a folder is nobody else's business."""

import subprocess
import sys
from pathlib import Path

from tests.record.cli.test_did import SHEET

ROOT = Path(__file__).parents[3]
#: Every event the interpreter tells of before something leaves this machine, or listens.
WATCH = """
import sys
sys.path.insert(0, {root!r})

def hook(event, args):
    if event.startswith("socket.") and event not in ("socket.gethostname",):
        if event == "socket.__new__" and args[1] == 1:  # AF_UNIX stays here
            return
        raise SystemExit("a socket: " + event)

sys.addaudithook(hook)
"""
WALK = """
import os
from typer.testing import CliRunner
from manual.cli import main
from record.cli import app

os.environ["ASBURIED_NOW"] = "2031-10-20T12:00:00Z"
run = CliRunner()
for words in {commands!r}:
    done = run.invoke(app, ["--record", "fb", *words])
    if "a socket" in str(done.exception):
        raise SystemExit(f"{{words}}: {{done.exception}}")
    print(words[0], done.exit_code)
"""
COMMANDS = [
    ["init"],
    ["post", "plan.md"],
    ["say", "valve", "CV-1", "size=160 mm", "--writer", "ld"],
    ["amend", "ld-1", "size=150 mm", "--because", "misread", "--writer", "ld"],
    ["writer", "ld", "--record"],
    ["sign-off", "--day", "2031-10-20", "--as", "ld"],
    ["show", "CV-1"],
    ["history", "CV-1"],
    ["find", "CV-1"],
    ["entries"],
    ["ready"],
    ["ready", "handover"],
    ["due"],
    ["visits"],
    ["did", "check-valve-test", "CV-1", "--writer", "ow"],
    ["figures"],
    ["proofs"],
    ["balance"],
    ["left"],
    ["drift"],
    ["reckon"],
    ["blank", "valve"],
    ["recall", "V-1"],
    ["manual", "issue", "--writer", "of", "--out", "out"],
    ["manual", "list"],
    ["pack", "bag"],
    ["verify"],
]


def python(program, cwd):
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=cwd,
        env={"PATH": "/usr/bin:/bin", "HOME": str(cwd), "XDG_STATE_HOME": str(cwd / "state")},
        capture_output=True,
        text=True,
        timeout=180,
        check=False,
    )


def test_every_kind_of_command_is_answered_without_opening_a_socket(tmp_path):
    (tmp_path / "plan.md").write_text(SHEET, encoding="utf-8")
    program = WATCH.format(root=str(ROOT)) + WALK.format(commands=COMMANDS)
    done = python(program, tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    answered = dict(line.split() for line in done.stdout.splitlines() if line.count(" ") == 1)
    assert set(answered) == {words[0] for words in COMMANDS}
    assert {answered[word] for word in ("init", "post", "say", "manual", "pack", "verify")} == {"0"}


def test_the_watch_does_see_a_socket(tmp_path):
    program = WATCH.format(root=str(ROOT)) + "import socket; socket.socket()"
    done = python(program, tmp_path)
    assert done.returncode != 0 and "a socket: socket.__new__" in done.stderr
