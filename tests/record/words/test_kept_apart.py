"""The record's sentences stand in its file of words: none a manual prints is left in the code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import manual
import record
from manual.languages.terms import every_term
from record.words import english, names
from tests.words_apart import calls, keys, left_in, not_answered

HOME = Path(record.__file__).parent
SAID = ("tell", "tell_how_many")
FIGURES = sorted(path.stem for path in (HOME / "figures").glob("of_*.py"))
#: Modules whose sentences a manual prints.
PRINTED = (
    *(
        "upkeep/due",
        "upkeep/counting",
        "upkeep/dates",
        "upkeep/fitted",
        "upkeep/rules",
        "upkeep/seasons",
    ),
    *("facts/values", "fold/state", "answers/saying", "answers/words_behind", "answers/layers"),
    *("answers/hazards", "answers/isolations", "answers/streams", "answers/find"),
    *("answers/stream_walk", "answers/shut_off", "answers/words_item"),
    *("answers/gaps", "answers/network", "place/along_shapes", "place/by_length"),
    *("place/face_shapes", "place/run_shapes", "place/shapes", "place/strays", "place/tied"),
    *("fold/looks", "figures/feeding", "figures/along", "figures/worked", "answers/find_depths"),
    *("place/through_shapes", "place/placed_shapes", "place/two_ways", "place/circles"),
    "place/carried",
    *(f"figures/{name}" for name in FIGURES),
    *("place/levels", "place/shots", "place/accuracy", "place/solids"),
)
#: What stands in a table of the record is translated as a term.
#: A choice that is never printed, a pattern, what a crew wrote, a table for a terminal.
NO_WORDS_IN = r"^cannot tell$|\\b|^nothing else seen$|^length of pipe$"


def modules() -> Iterator[Path]:
    """Yield every module that tells anything."""
    for home in (HOME, Path(manual.__file__).parent):
        for path in sorted(home.rglob("*.py")):
            if "from record.words import tell" in path.read_text(encoding="utf-8"):
                yield path


@pytest.mark.parametrize("module", PRINTED)
def test_no_sentence_a_manual_prints_is_left_in_the_code(module: str):
    text = (HOME / f"{module}.py").read_text(encoding="utf-8")
    assert left_in(text, every_term(), NO_WORDS_IN) == []


def test_whatever_the_code_tells_is_there_and_is_given_what_it_puts_in():
    told = english().said
    assert [fault for path in modules() for fault in not_answered(path, told, SAID)] == []


def test_nothing_stands_in_the_file_of_words_that_nobody_tells():
    asked = [keys(call) for path in modules() for call in calls(path, SAID)]
    assert [k for k in english().said if not any(one.fullmatch(k) for one in asked)] == []


def constants() -> Iterator[str]:
    for path in sorted(HOME.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value.strip()


def test_every_name_that_is_a_term_stands_in_code():
    """A name with a colon in it is put together: "dry: runs out"."""
    told = set(constants())
    lost = [one for one in names() if one not in told and f": {one.partition(': ')[2]}" not in told]
    assert lost == []


def figures_of(path: Path) -> Iterator[str]:
    """Yield what a module gives to a figure as its name, or as words for a value."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "Figure":
            for given in node.args[:2]:
                either = (given.body, given.orelse) if isinstance(given, ast.IfExp) else (given,)
                yield from (
                    one.value.strip()
                    for one in either
                    if isinstance(one, ast.Constant) and isinstance(one.value, str)
                )


@pytest.mark.parametrize("path", sorted((HOME / "reckon").glob("of_*.py")), ids=lambda p: p.stem)
def test_every_figure_is_named_by_a_term(path: Path):
    given = list(figures_of(path))
    assert given
    assert [one for one in given if re.search("[a-z]{2}", one) and one not in every_term()] == []
