"""What the manual says stands in its file of words: none is left in the code, none is unused."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest

import manual
from manual.draft import drafts
from manual.languages import english
from record.facts import KINDS
from record.facts.fields import OneOf

HOME = Path(manual.__file__).parent
SAID = ("say", "say_how_many")
#: What these say is said to whoever types a command or writes a chapter, as the record's is.
TO_WHOEVER_TYPES = {
    "asking.py",
    "brief_command.py",
    "chapter.py",
    "cli.py",
    "issue.py",
    "languages/__init__.py",
    "marks.py",
    "outside.py",
    "press.py",
    "profile_command.py",
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


def calls(path: Path) -> Iterator[ast.Call]:
    if path.parent.name == "languages":
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SAID:
            yield node


def keys(call: ast.Call) -> re.Pattern[str]:
    """Return the keys a call may ask for: one, or those of a pattern with holes."""
    key = call.args[0]
    parts = key.values if isinstance(key, ast.JoinedStr) else [key]
    told = "".join(
        re.escape(part.value) if isinstance(part, ast.Constant) else r"[\w.]+" for part in parts
    )
    many = isinstance(call.func, ast.Name) and call.func.id == "say_how_many"
    return re.compile(told + (r"\.(one|more)" if many else ""))


def slots(words: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(words) if name}


def left_in(source: str) -> list[str]:
    """Return the strings of two words and more in functions that are not asked for by key."""
    tree = ast.parse(source)
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}

    def above(node: ast.AST) -> Iterator[ast.AST]:
        while node in parents:
            node = parents[node]
            yield node

    def for_nobody_who_reads(node: ast.AST) -> bool:
        up = list(above(node))
        docstring = isinstance(up[0], ast.Expr)
        refused = any(isinstance(one, ast.Raise | ast.Assert) for one in up)
        pattern = any(
            isinstance(one, ast.Call) and ast.unparse(one.func).startswith("re.") for one in up
        )
        return docstring or refused or pattern

    found = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            continue
        words = re.sub(r"<[^>]*>?|\\.|\{.*?\}|&#?\w+;|[\w-]+=\"[^\"]*", " ", node.value)
        if not re.search(r"[^\W\d_]{2,}\W*\s\W*[^\W\d_]{2,}", words) or node.value in ALLOWED:
            continue
        if not for_nobody_who_reads(node) and not re.search(NO_WORDS_IN, node.value):
            found.append(node.value)
    return found


@pytest.mark.parametrize("path", for_readers(), ids=named)
def test_no_words_for_a_reader_are_left_in_the_code(path: Path):
    assert left_in(path.read_text(encoding="utf-8")) == []


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
    whole = english().words
    faults = []
    for path in modules():
        for call in calls(path):
            asked = [key for key in whole if keys(call).fullmatch(key)]
            put = {one.arg for one in call.keywords}
            many = ast.unparse(call.func) == "say_how_many"
            for key in asked:
                if slots(whole[key]) != put and not (
                    many and slots(whole[key]) - put <= {"number"}
                ):
                    faults.append(f"{path.name}:{call.lineno}: {key} puts in {slots(whole[key])}")
            if not asked:
                faults.append(f"{path.name}:{call.lineno}: nothing stands under {keys(call)}")
    assert faults == []


def test_nothing_stands_in_the_file_of_words_that_nobody_asks_for():
    asked = [keys(call) for path in modules() for call in calls(path)]
    css = (HOME / "theme" / "manual.css").read_text(encoding="utf-8")
    asked += [re.compile(re.escape(key)) for key in re.findall(r"say\(([\w.]+)", css)]
    asked.append(re.compile(r"screen\.(found|found_more|nothing_found)"))  # said by the script
    unused = [k for k in english().words if not any(one.fullmatch(k) for one in asked)]
    assert unused == []
