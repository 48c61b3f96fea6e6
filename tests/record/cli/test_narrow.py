"""Answers on a terminal narrower than their lines, and on none."""

from __future__ import annotations

import fcntl
import os
import pty
import struct
import sys
import termios
from pathlib import Path

import pytest

from record.answers.saying import wrapped
from record.cli.narrow import narrow
from record.log import Log
from tests.record.building import day
from tests.record.checks.ground import SITE, TRENCH
from tests.record.cli.test_every_command import ROOT, here
from tests.record.records import post_text

__all__ = ["here"]
WORDS = (
    "Behind it before it was closed nobody looked, so that what lies there is not known; look, "
    "measure and test before you cut, and stop at anything that is not told here."
)


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_wrapped_lines_are_put_together_and_set_anew(columns: int):
    """No short line is left after each long one, and no word is cut or lost."""
    found = list(narrow(wrapped(WORDS), columns))
    assert max(map(len, found)) <= columns
    assert " ".join(line.strip() for line in found) == WORDS
    assert all(len(line) > columns - 16 for line in found[:-1])
    assert all(line.startswith("    ") for line in found[1:])


def test_a_terminal_that_is_wide_enough_gets_the_lines_as_they_were_set():
    lines = list(wrapped(WORDS))
    assert len(lines) > 1 and list(narrow(lines, 104)) == list(narrow(lines, 180)) == lines


def test_a_number_is_not_parted_from_its_unit_nor_inches_from_their_fraction():
    said = (
        "  R-1: from near 2.400 m (7' 10 1/2\") to 3.600 m (11' 9 3/4\"), 46.550 m (152' 8 11/16\")"
    )
    for columns in range(24, 90):
        for line in narrow([said], columns):
            assert not line.rstrip().endswith(("2.400", "3.600", "46.550", "'", " 10", " 9", " 8"))


def test_two_statements_are_not_run_together():
    one, two = "  " + "x" * 60, "    clears it: " + "y" * 20
    assert list(narrow([one, two, "", one, one], 70)) == [one, two, "", one, one]


def test_a_drawing_is_left_as_it_is():
    drawn = ["   | " + " " * 90 + "o", "   +" + "-" * 90]
    assert list(narrow(drawn, 60)) == drawn


def test_a_row_of_columns_breaks_between_words_and_takes_no_other_row_in():
    row = "  jo-1     2031-05-14        site fern-hill: name: Fern Hill; people: 5; datum: the nail"
    found = list(narrow([row.ljust(98), row.ljust(98)], 60))
    assert len(found) == 4 and found[0] == found[2] and max(map(len, found)) <= 60


@pytest.fixture
def place(tmp_path: Path) -> str:
    with Log.make(tmp_path / "r") as log:
        post_text(log, day("2031-05-13", "ld", SITE))
        bare = "\n".join(line for line in TRENCH.splitlines() if not line.startswith("!["))
        post_text(log, day("2031-05-14", "ld", bare))
    return str(tmp_path / "r")


def on_a_terminal(columns: int, *words: str) -> str:
    pid, end = pty.fork()
    if pid == 0:
        env = {**os.environ, "PYTHONPATH": str(ROOT), "ASBURIED_NOW": "2031-06-01T18:00:00Z"}
        env.pop("COLUMNS", None)
        program = "import sys; sys.stdin.readline(); from manual.cli import main; main()"
        os.execve(sys.executable, (sys.executable, "-c", program, *words), env)
    fcntl.ioctl(end, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    os.write(end, b"\n")  # only now: it asks how wide it is when it prints
    shown = b""
    while True:
        try:
            shown += os.read(end, 4096)
        except OSError:
            break
    os.waitpid(pid, 0)
    return shown.decode().replace("\r\n", "\n").removeprefix("\n")


def test_a_phone_shows_no_line_wider_than_itself_and_says_the_same(here, place: str):
    words = ("--record", place, "ready", "FILL")
    _, whole, _ = here(*words)
    shown = on_a_terminal(60, *words)
    assert max(map(len, whole.splitlines())) > 80
    assert max(len(line) for line in shown.splitlines() if "|" not in line) <= 60
    assert shown.split() == whole.split()


def test_json_is_the_same_on_a_terminal(here, place: str):
    words = ("--record", place, "ready", "FILL", "--json")
    assert on_a_terminal(60, *words) == here(*words)[1]
