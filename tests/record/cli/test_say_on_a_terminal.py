"""asburied say on a terminal: what is missing is asked for, shown as understood, then recorded."""

from __future__ import annotations

import os
import pty
import select
import signal
import sys
import time
from pathlib import Path

import pytest

from record.log import Log
from tests.record.cli.test_every_command import ROOT
from tests.record.records import SITE, post_text, sheet
from tests.typed import asburied

THINGS = """## run AIR-IN

- carries: supply air

## run AIR-OUT

- carries: exhaust air

## landmark H1

- what: house corner
- x: 10.00 m
- y: 20.00 m
"""


@pytest.fixture
def place(tmp_path: Path) -> str:
    with Log.make(tmp_path / "r") as log:
        post_text(log, SITE)
        post_text(log, sheet(THINGS))
    return str(tmp_path / "r")


class Terminal:
    """The program on a terminal of its own, typed at line by line."""

    def __init__(self, place: str, *words: str) -> None:
        self.seen = ""
        self.pid, self.end = pty.fork()
        if self.pid == 0:
            # Where the tests run in the background Ctrl-C is ignored, and that is handed on.
            signal.signal(signal.SIGINT, signal.SIG_DFL)
            env = {**os.environ, "PYTHONPATH": str(ROOT), "ASBURIED_NOW": "2031-06-01T18:00:00Z"}
            program = "from manual.cli import main; main()"
            words = (sys.executable, "-c", program, "--record", place, *words)
            os.execve(sys.executable, words, env)

    def until(self, words: str) -> str:
        """Return what was shown since the last call, up to some words."""
        deadline, shown = time.monotonic() + 30, ""
        while words not in shown:
            assert time.monotonic() < deadline, shown
            ready, _, _ = select.select([self.end], [], [], 1)
            try:
                piece = os.read(self.end, 4096) if ready else b""
            except OSError:  # the program left
                break
            shown += piece.decode(errors="replace")
        self.seen += shown
        return shown

    def type(self, text: str, until: str) -> str:
        os.write(self.end, text.encode())
        return self.until(until)

    def left(self) -> int:
        self.until("\0 never shown")
        _, status = os.waitpid(self.pid, 0)
        os.close(self.end)
        return os.waitstatus_to_exitcode(status)


def bodies(place: str, writer: str = "ow") -> list[dict[str, object]]:
    with Log.open(Path(place)) as log:
        found = [e.content for e in log.entries() if e.link.writer == writer and e.content]
    return [dict(content.body) for content in found if content.kind != "sheet-posted"]


def test_what_is_missing_is_asked_and_read_back_before_it_is_recorded(place: str):
    """88.5 in = 2247.9 mm, an inch being 25.4 mm."""
    terminal = Terminal(place, "say", "valve", "CV-1", "size=88.5 in", "--writer", "ow")
    assert "1  check" in terminal.until("gate): ")
    assert "2  AIR-OUT" in terminal.type("1\n", "tag of a run): ")
    shown = terminal.type("2\n", "leaves it: ")
    assert "size: 88.5 in = 2.248 m" in shown and "type: check" in shown
    assert "on run: AIR-OUT" in shown and bodies(place) == []
    terminal.type("\n", "ow-1: valve CV-1")
    assert terminal.left() == 0
    [body] = bodies(place)
    assert (body["type"], body["on_run"]) == ("check", "AIR-OUT")


def test_one_line_can_be_changed_before_it_is_recorded(place: str):
    terminal = Terminal(
        place, "say", "valve", "CV-1", "type=chek", "on run=AIR-IN", "--writer", "ow"
    )
    assert "not one of the words" in terminal.until("leaves it: ")
    assert "4  shut-off" in terminal.type("1\n", "gate): ")
    assert "type: shut-off" in terminal.type("4\n", "leaves it: ")
    terminal.type("\n", "ow-1")
    assert terminal.left() == 0
    assert [body["type"] for body in bodies(place)] == ["shut-off"]


def test_enter_twice_on_a_needed_field_is_not_recorded(place: str):
    terminal = Terminal(place, "say", "dip pipe", "DP-1", "x=1 m", "--writer", "ow")
    terminal.until("unit): ")
    assert 'Enter once more for "not recorded"' in terminal.type("\n", "unit): ")
    assert "y: not recorded" in terminal.type("\n", "leaves it: ")
    terminal.type("\n", "ow-1")
    assert terminal.left() == 0
    assert [body["y"] for body in bodies(place)] == [{"absent": "not recorded"}]


def test_a_value_that_cannot_be_read_is_asked_again(place: str):
    terminal = Terminal(place, "say", "dip pipe", "DP-1", "x=1 m", "--writer", "ow")
    terminal.until("unit): ")
    assert "2.5 has no unit" in terminal.type("2.5\n", "unit): ")
    assert "y: 2.5 m" in terminal.type("2.5 m\n", "leaves it: ")
    terminal.type("\n", "ow-1")
    assert terminal.left() == 0


def test_a_tag_nobody_used_brings_the_nearest_to_choose_from(place: str):
    terminal = Terminal(
        place, "say", "reading taken", "AIR-UOT", "what=flow", "reading=90", "--writer", "ow"
    )
    shown = terminal.until("about: ")
    assert "nothing here has the tag AIR-UOT" in shown and "1  AIR-OUT" in shown
    assert "reading taken AIR-OUT" in terminal.type("1\n", "leaves it: ")
    terminal.type("\n", "ow-1: reading taken AIR-OUT")
    assert terminal.left() == 0


@pytest.mark.parametrize("stop", ["\x03", "\x04"])
@pytest.mark.parametrize("far", ["while asked", "before it is recorded"])
def test_whoever_stops_records_nothing(place: str, stop: str, far: str):
    words = ["say", "dip pipe", "DP-1", "x=1 m"] + (["y=2 m"] if far.startswith("before") else [])
    terminal = Terminal(place, *words, "--writer", "ow")
    terminal.until("leaves it: " if far.startswith("before") else "unit): ")
    time.sleep(0.5)  # a person's hand is slower than the prompt
    assert "stopped; nothing was recorded" in terminal.type(stop, "was recorded")
    assert terminal.left() == 130
    assert bodies(place) == []


def test_without_a_terminal_everything_that_is_missing_is_said_at_once(place: str):
    done = asburied("--record", place, "say", "landmark", "H2", "--writer", "ow")
    assert (done.returncode, done.stdout) == (1, "")
    for key in ("what", "x", "y"):
        assert f'"{key}" is missing (landmark H2)' in done.stderr
    assert bodies(place) == []
