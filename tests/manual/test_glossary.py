"""One word for one thing: what the chapters say is explained, and said in no other word."""

from __future__ import annotations

import re

import pytest

from manual.languages import english
from record.facts import KINDS, Sort

CHAPTERS = english().chapters
GLOSSARY = CHAPTERS["14-glossary.md"]
TERMS = {
    row[1].strip(): row[2].strip()
    for row in re.finditer(r"(?m)^\| ([^|]+) \| ([^|]+) \|$", GLOSSARY)
    if row[1] not in ("Word", "---")
}
#: Trade words that the chapters use, beside the kinds of the record.
TRADE = (
    "crown", "invert", "datum", "tolerance", "interpolated", "checkpoint", "reserved", "far",
    "near", "cover", "tie", "fall", "level", "tag", "entry", "face", "drill",
    "hand crank", "hatch", "void",
)  # fmt: skip
#: What somebody else would call it → the word of this manual.
NOT_SAID = {
    "escape": "way out",
    "emergency exit": "way out",
    "exit": "way out",
    "bunker": "shelter",
    "stopcock": "valve",
    "shutoff": "valve",
    "cladding": "panel",
    "piping": "pipe",
    "pipeline": "run",
    "depth of cover": "cover",
    "reference point": "landmark",
    "bench mark": "benchmark",
    "low end level": "invert",
    "weld seam": "seam",
    "blower": "fan",
    "serial lot": "lot",
    "work permit": "work pass",
    "cable gland": "penetration",
}


def words_of(chapter: str) -> str:
    """Return what a chapter says itself, without what is asked of the record and mark-up."""
    bare = re.sub(r"\{\{.*?\}\}|\{%.*?%\}|\[\[.*?\]\]|<[^>]*>|`[^`]*`", " ", chapter, flags=re.S)
    return " ".join(bare.casefold().split())


SAID = {name: words_of(text) for name, text in CHAPTERS.items() if name != "14-glossary.md"}
ALL = " ".join((*SAID.values(), " ".join(english().words.values()).casefold()))


def says(words: str, text: str) -> bool:
    return re.search(rf"\b{re.escape(words)}(e?s)?\b", text) is not None


@pytest.mark.parametrize("term", TERMS)
def test_a_word_that_is_explained_is_used(term):
    assert says(term, ALL)


def test_every_kind_of_thing_that_a_chapter_names_is_explained_and_so_are_the_trades_words():
    #: Plain words, or told where they stand by a sentence of the kind itself.
    plain = {"door", "batch", "content", "step", "month", "layer", "temporary", "climate", "marker"}
    kinds = {kind.word for kind in KINDS.values() if kind.sort is Sort.THING} - plain
    named = {word for word in kinds if any(says(word, text) for text in SAID.values())}
    used = named | {word for word in TRADE if says(word, ALL)}
    assert sorted(used - set(TERMS)) == []
    assert len(named) > 10, "the chapters name things"


@pytest.mark.parametrize("other", NOT_SAID)
def test_no_chapter_says_it_in_another_word(other):
    assert [name for name, text in SAID.items() if says(other, text)] == []


def test_each_word_is_explained_once_and_they_stand_in_the_order_of_the_alphabet():
    rows = re.findall(r"(?m)^\| ([^|]+) \|", GLOSSARY)[2:]
    assert rows == sorted(set(rows))
