"""The README says what there is: every command, the two commands of set-up, files that exist."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.record.cli.test_every_command import COMMANDS

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
#: Sheets of the demo that the README shows a piece of.
SHOWN = ("demo/sheets/10-2022-05-18-ld.md", "demo/sheets/11-2022-05-18-ld-evening.md")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_in_the_readme(command: str) -> None:
    assert command in README, f"the README does not tell of {command}"


def test_the_readme_opens_with_the_job_and_two_commands() -> None:
    first = README.split("\n\n")[1]
    assert "shelter" in first and "record" in first and "manual" in first
    for command in ("./demo/run", "./tests/run"):
        assert command in README and (ROOT / command).stat().st_mode & 0o100


def test_what_the_readme_shows_of_a_sheet_stands_in_that_sheet() -> None:
    """Every line of the sheet in the README stands in the demo, but for the columns left out."""
    sheets = "\n".join((ROOT / name).read_text(encoding="utf-8") for name in SHOWN)
    block = re.findall(r"```\n(# 2022-05-18 ld\n.*?)```", README, re.DOTALL)[0]
    for line in block.splitlines():
        for cell in line.strip("|").split("|"):
            assert cell.strip() in sheets or set(cell) <= set("-"), line


def test_every_file_the_developers_page_names_is_there() -> None:
    named = set(
        re.findall(r"`((?:record|manual|tests|migrations|demo|\.ci)/[\w./-]+)`", DEVELOPERS)
    )
    assert len(named) >= 6
    missing = [name for name in named if "NN-" not in name and not (ROOT / name).exists()]
    assert not missing
