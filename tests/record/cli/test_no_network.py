"""No command speaks to a network: a record in a folder is nobody else's business."""

import subprocess
import sys
from pathlib import Path

from tests.office import Server
from tests.record.cli.test_did import SHEET
from tests.record.cli.test_every_command import COMMANDS as EVERY

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
    print("answered", done.exit_code, " ".join(words))
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
    ["withdraw", "ld-2", "--because", "it was another", "--writer", "ld"],
    ["behind", "P-1"],
    ["fixings", "P-1", "--depth", "40 mm"],
    ["beneath", "1,2"],
    ["landmarks"],
    ["upstream", "CV-1"],
    ["downstream", "CV-1"],
    ["rests-on", "ld"],
    ["release", "FILL-1", "--writer", "ck"],
    ["waive", "trunk-large-enough", "--writer", "ck"],
    ["pass", "PASS-1"],
    ["passes"],
    ["fill"],
    ["schema", "show"],
    ["export", "csv", "--out", "tables"],
    ["export", "ifc", "--out", "model.ifc"],
    ["export", "workbook", "--out", "book.xlsx"],
    ["export", "geojson", "--out", "map.geojson"],
    ["brief", "P-1"],
    ["profile", "CV-1"],
    ["manual", "compare", "1", "1"],
    ["manual", "check"],
    ["manual", "issue", "--writer", "of", "--out", "out"],
    ["manual", "list"],
    ["pack", "bag"],
    ["--record", "again", "unpack", "bag"],
    ["merge", "again"],
    ["seal"],
    ["unseal"],
    ["verify"],
]


def python(program, cwd):
    return subprocess.run(
        [sys.executable, "-c", program],
        cwd=cwd,
        env={
            "PATH": "/usr/bin:/bin",
            "HOME": str(cwd),
            "XDG_STATE_HOME": str(cwd / "state"),
            "ASBURIED_RECORD_PASSPHRASE_FILE": str(cwd / "plan.md"),  # its first line
        },
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
    told = [line.split() for line in done.stdout.splitlines() if line.startswith("answered ")]
    assert [words for _, _, *words in told] == [" ".join(words).split() for words in COMMANDS]
    status = {" ".join(words[:2]): code for _, code, *words in told}
    for well in (
        "init",
        "post plan.md",
        "verify",
        "pack bag",
        "merge again",
        "seal",
        "unseal",
        "manual issue",
        "export ifc",
    ):
        assert status[well] == "0", (well, done.stdout)


def test_no_command_was_left_out():
    named = [words[2:] if words[0] == "--record" else words for words in COMMANDS]
    asked = {" ".join(words[: 2 if words[0] == "manual" else 1]) for words in named}
    assert {f"asburied {name}" for name in asked} == set(EVERY)


def test_the_watch_does_see_a_socket(tmp_path):
    program = WATCH.format(root=str(ROOT)) + "import socket; socket.socket()"
    done = python(program, tmp_path)
    assert done.returncode != 0 and "a socket: socket.__new__" in done.stderr


OFFICE = """
import os, psycopg, sys
from manual.cli import main
from record.cli import app
from typer.testing import CliRunner

reached = set()
really = psycopg.Connection.connect.__func__

def watched(cls, conninfo="", **more):
    made = really(cls, conninfo, **more)
    reached.add((made.info.hostaddr or made.info.host, made.info.port))
    return made

def hook(event, args):
    if event in ("socket.connect", "socket.sendto", "socket.bind"):
        reached.add(args[1][:2] if isinstance(args[1], tuple) else args[1])

psycopg.Connection.connect = classmethod(watched)
psycopg.connect = psycopg.Connection.connect
sys.addaudithook(hook)
os.environ["ASBURIED_NOW"] = "2031-10-20T12:00:00Z"
for words in (["init"], ["post", "plan.md"], ["show", "CV-1"], ["verify"], ["pack", "bag"]):
    done = CliRunner().invoke(app, ["--record", sys.argv[1], *words])
    assert done.exit_code == 0, (words, done.output, done.exception)
print(sorted(reached))
"""


def test_an_office_record_reaches_the_server_that_was_named_and_no_other(
    tmp_path: Path, office_server: Server
):
    """libpq opens the socket itself, unseen by Python: so it is asked where it is connected to."""
    (tmp_path / "plan.md").write_text(SHEET, encoding="utf-8")
    url = f"{office_server.url(office_server.database())}#fern-bank"
    program = f"import sys\nsys.path.insert(0, {str(ROOT)!r})\n{OFFICE}"
    done = subprocess.run(
        [sys.executable, "-c", program, url],
        cwd=tmp_path,
        env={
            "PATH": "/usr/bin:/bin",
            "HOME": str(tmp_path),
            "PGPASSFILE": str(office_server.password_file),
        },
        capture_output=True,
        text=True,
        timeout=180,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout == f"[('127.0.0.1', {office_server.port})]\n"
