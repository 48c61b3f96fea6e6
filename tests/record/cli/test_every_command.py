"""What holds for every command of the program, whoever added it."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import typer.main

from manual.cli import main  # mounts whatever the manual mounts
from record.cli import app
from record.log import Log
from tests.record.records import post_text, sheet

ROOT = Path(__file__).parents[3]
PROGRAM = "from manual.cli import main; main()"


def commands(group: Any, path: str = "asburied") -> Iterator[tuple[str, Any]]:
    for name, found in getattr(group, "commands", {}).items():
        yield from commands(found, f"{path} {name}")
    if not hasattr(group, "commands"):
        yield path, group


COMMANDS = dict(commands(typer.main.get_command(app)))


def python(program: str, *words: str, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program, *words],
        env={**os.environ, "PYTHONPATH": str(ROOT), **more},
        capture_output=True,
        text=True,
        timeout=60,
    )


Told = tuple[int, str, str]


@pytest.fixture
def here(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Told]:
    """Run the command in this process: its exit status, its output, its errors."""

    def told(*words: str) -> Told:
        monkeypatch.setattr(sys, "argv", ["asburied", *words])
        monkeypatch.setattr(sys, "stdout", sys.stdout)  # put back when the test is over
        monkeypatch.setenv("ASBURIED_NOW", "2031-06-01T12:00:00Z")
        with pytest.raises(SystemExit) as left:
            main()
        return int(left.value.code or 0), *capsys.readouterr()

    return told


def test_the_commands_were_looked_at():
    assert {"asburied init", "asburied post", "asburied say", "asburied verify"} <= set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_says_what_it_does_with_an_example_and_its_exit_statuses(name: str):
    words = COMMANDS[name].help or ""
    paragraphs = [" ".join(p.split()) for p in re.split(r"\n\s*\n", words.strip())]
    assert paragraphs[0].endswith(".") and len(paragraphs[0]) < 200
    examples = [p for p in paragraphs if p.startswith("Example: ")]
    assert examples and all(e.startswith("Example: asburied ") for e in examples)
    command = name.removeprefix("asburied ")
    assert any(f" {command}" in e for e in examples)
    assert paragraphs[-1].startswith("Exit status is 0 ")
    assert " 2 if the command itself was wrong" in paragraphs[-1]
    # An example comes at the end: only the statuses follow it.
    assert paragraphs[-2].startswith("Example: ")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_says_what_it_is_for(name: str):
    for parameter in COMMANDS[name].params:
        if parameter.param_type_name == "option":
            assert parameter.help, parameter.name


@pytest.mark.parametrize("words", [["--help"], ["-h"], ["post", "--help"]])
def test_help_is_plain_and_leaves_with_0(words: list[str]):
    done = python(PROGRAM, *words)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Exit status is 0" in " ".join(done.stdout.split())
    assert "\x1b" not in done.stdout and "╭" not in done.stdout


@pytest.mark.parametrize(
    "words",
    [
        ["no-such-command"],
        ["post"],
        ["post", "--no-such-option", "x.md"],
        ["say", "remark", "text=x"],
        ["--record", "/nowhere", "verify"],
        ["--record", "/nowhere", "post", "x.md"],
        ["--record", "/nowhere", "say", "remark", "text=x", "--writer", "ld"],
    ],
)
def test_a_command_given_wrongly_says_so_and_leaves_with_2(
    here: Callable[..., Told], words: list[str]
):
    status, out, errors = here(*words)
    assert (status, out) == (2, "")
    assert errors.strip() and "Traceback" not in errors


@pytest.mark.parametrize(
    "words",
    [
        ["post", "/nowhere.md"],
        ["post", "."],
        ["say", "wibble", "text=x", "--writer", "ld"],
        ["say", "run", "AIR-IN", "x", "--writer", "ld"],
        ["say", "remark", "text=x", "--writer", "L D"],
        ["say", "remark", "text=x", "--writer", "ld", "--on", "yesterday"],
        ["say", "remark", "text=x\n\n## valve V", "--writer", "ld"],
        ["say", "run", "AIR-IN", "size=1O.5 in", "--writer", "ld"],
        ["say", "run", "NOWHERE/1", "size=6 in", "--writer", "ld"],
    ],
)
def test_what_cannot_be_done_is_said_in_words_and_records_nothing(
    log: Log, folder: Path, here: Callable[..., Told], words: list[str]
):
    before = list(log.lines())
    status, _, errors = here("--record", str(folder), *words)
    assert status in (1, 2)
    assert errors.strip()
    assert "Traceback" not in errors and "fault of the program" not in errors
    assert list(log.lines()) == before


def test_the_records_commands_stand_without_the_manual():
    """record.cli imports with `manual` absent, as where only the record is installed."""
    done = python(
        "import sys\n"
        "class Absent:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name.partition('.')[0] == 'manual': raise ModuleNotFoundError(name)\n"
        "sys.meta_path.insert(0, Absent())\n"
        "import record.cli\n"
        "assert 'manual' not in sys.modules\n"
        "print(len(record.cli.app.registered_commands))"
    )
    assert done.stderr == "" and int(done.stdout) >= 4


HEAVY = ("weasyprint", "alembic", "jinja2", "icalendar", "PIL", "numpy")
ASKING = {
    "asburied behind": ["behind", "A-L3"],
    "asburied show": ["show", "AIR-IN"],
    "asburied verify": ["verify"],
    "asburied entries": ["entries"],
    "asburied find": ["find", "AIR-IN"],
    "asburied rests-on": ["rests-on", "ld"],
    "asburied upstream": ["upstream", "AIR-IN"],
    "asburied profile": ["profile", "AIR-IN"],
    "asburied landmarks": ["landmarks"],
    "asburied beneath": ["beneath", "1,2"],
    "asburied fixings": ["fixings", "P-1", "--depth", "40 mm"],
}


@pytest.mark.parametrize("name", [name for name in ASKING if name in COMMANDS])
def test_a_question_loads_neither_the_pages_nor_the_migrations(log: Log, folder: Path, name: str):
    post_text(log, sheet("## run AIR-IN\n\n- material: clay"))
    done = python(
        "import sys\nfrom manual.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"print([m for m in {HEAVY!r} if m in sys.modules], file=sys.stderr)",
        "--record",
        str(folder),
        *ASKING[name],
    )
    assert done.stderr.splitlines()[-1] == "[]"


def test_output_to_a_terminal_that_knows_only_ascii_is_no_fault(log: Log, folder: Path):
    text = sheet("## remark\n\nStone.").replace(
        "## remark", "## run AIR-IN\n\n- size: 6 in\n\n## remark"
    )
    path = folder / "übung.md"
    path.write_text(text, encoding="utf-8")
    done = python(
        PROGRAM, "--record", str(folder), "post", str(path), PYTHONIOENCODING="ascii:strict",
        ASBURIED_NOW="2031-06-01T12:00:00Z",
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")


def test_whoever_reads_the_output_may_leave_early(log: Log, folder: Path):
    command = f"'{sys.executable}' -c 'from manual.cli import main; main()' --record '{folder}'"
    done = subprocess.run(
        f"{command} verify | sleep 0; echo ${{PIPESTATUS[0]}}",
        shell=True,
        executable="/bin/bash",
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
    )
    assert (done.stdout, done.stderr) == ("0\n", "")
