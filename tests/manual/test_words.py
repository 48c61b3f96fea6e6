"""What the manual says stands in its file of words: none is left in the code, none is unused."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import manual
from manual.asks.draft import drafts
from manual.languages import english
from record.facts import KINDS
from record.facts.fields import OneOf
from tests.words_apart import calls, keys, left_in, not_answered

HOME = Path(manual.__file__).parent
SAID = ("say", "say_how_many")
#: What these say is said to whoever types a command or writes a chapter, as the record's is.
TO_WHOEVER_TYPES = {
    "asks/asking.py",
    "brief/command.py",
    "chapter.py",
    "cli.py",
    "handing.py",
    "issue.py",
    "languages/__init__.py",
    "languages/terms.py",
    "asks/marks.py",
    "printing/outside.py",
    "printing/press.py",
    "brief/profile.py",
}
#: What looks like words and is none: a chapter's or a stage's name, what another program reads.
NO_WORDS = {
    "emergency pages",
    "air flow",
    "by itself",
    "from its ",
    "lay out",
    "long section",
    "site plan",
    "water flow",
    "way plan",
    "write the chapters",
    "-//asburied//upkeep calendar//EN",
}
NO_WORDS_IN = (
    r"form-action|font-size|max-height|default-src|Atkinson Hyperlegible"
    r"|^\$0123|^Asburied (Text|Marks)$"
    r"|^wide, open, rule in view"  # of a photo, in a sheet to post back
)
#: Names that code asks the record by.
NAMES = {word for kind in KINDS.values() for word in (kind.word, *(f.key for f in kind.fields))}
CHOICES = {
    word
    for kind in KINDS.values()
    for field in kind.fields
    if isinstance(field.holds, OneOf)
    for word in field.holds.words
}
SORTS = {sort for draft in drafts().values() for step in draft.steps for sort in step.touches}
ALLOWED = NAMES | CHOICES | SORTS | NO_WORDS


def modules() -> Iterator[Path]:
    return (p for p in sorted(HOME.rglob("*.py")))


def named(path: Path) -> str:
    return path.relative_to(HOME).as_posix()


def for_readers() -> list[Path]:
    found = [path for path in modules() if named(path) not in TO_WHOEVER_TYPES]
    return [path for path in found if path.parent.name != "proof"]  # what `manual check` says


@pytest.mark.parametrize("path", for_readers(), ids=named)
def test_no_words_for_a_reader_are_left_in_the_code(path: Path):
    assert left_in(path.read_text(encoding="utf-8"), ALLOWED, NO_WORDS_IN) == []


@pytest.mark.parametrize(
    "line",
    [
        'return "not recorded"',
        'return f"{value} metres across"',
        'return f"<p>nothing known of {tag}</p>"',
        'notes = ("Between stations a line is guessed.",)',
    ],
)
def test_words_left_in_the_code_are_found(line: str):
    assert left_in(f"def told():\n    {line}\n")


def test_whatever_the_code_asks_for_is_there_and_is_given_what_it_puts_in():
    paths = [path for path in modules() if path.parent.name != "languages"]
    faults = [fault for path in paths for fault in not_answered(path, english().words, SAID)]
    assert faults == []


def test_nothing_stands_in_the_file_of_words_that_nobody_asks_for():
    paths = [path for path in modules() if path.parent.name != "languages"]
    asked = [keys(call) for path in paths for call in calls(path, SAID)]
    css = (HOME / "theme" / "manual.css").read_text(encoding="utf-8")
    asked += [re.compile(re.escape(key)) for key in re.findall(r"say\(([\w.]+)", css)]
    asked.append(re.compile(r"screen\.(found|found_more|nothing_found)"))  # said by the script
    unused = [k for k in english().words if not any(one.fullmatch(k) for one in asked)]
    assert unused == []
