"""Tags both ways: each one in the manual is in the record, and each one of the record is in it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches

from manual.proof.finding import Finding
from manual.proof.pages import Pages
from record.facts.named import TAG
from record.readers import View

_WORD = re.compile(rf"(?<![\w.-]){TAG.pattern}(?![\w-])")


def unknown(pages: Pages, view: View) -> Iterator[Finding]:
    """
    Yield what is none of the tags that this reader's record has, though it is marked as one, or
    looks like one (its first letters are those of a tag, then a hyphen and a number) and is no
    word that a crew wrote.
    """
    known = set(view.built.things)
    like = {tag.partition("-")[0] for tag in known if "-" in tag}
    typed = _typed(view)
    for element, words in pages.words():
        marked = any("tag" in each.get("class", "").split() for each in pages.above(element))
        for word in _WORD.findall(words):
            tag = word.rstrip(".")
            if tag in known or not (marked or (_looks_like(tag, like) and tag not in typed)):
                continue
            near = get_close_matches(tag, known, 1, 0.5)
            yield Finding(
                rule="tag",
                page=pages.page_of(element),
                wrong="a tag that the record does not have",
                line=tag,
                instead=f"write {near[0]}, or record {tag}" if near else f"record {tag}",
            )


def _looks_like(word: str, like: set[str]) -> bool:
    first, hyphen, rest = word.partition("-")
    return bool(hyphen) and first in like and any(letter.isdigit() for letter in rest)


def _typed(view: View) -> set[str]:
    """Return every word of the entries that could be a tag: lots, models, rooms of a house."""
    lines = (entry.content_line for entry in view.built.entries if entry.content_line)
    return {word.rstrip(".") for line in lines for word in _WORD.findall(line.decode())}


def left_out(pages: Pages, view: View) -> Iterator[Finding]:
    """Yield the things this reader may see that the manual says nothing of."""
    told = {word.rstrip(".") for _, words in pages.words() for word in _WORD.findall(words)}
    for tag, thing in view.built.things.items():
        if tag not in told:
            yield Finding(
                rule="left out",
                page=None,
                wrong=f"the record has a {thing.kind.word} that the manual does not name",
                line=tag,
                instead=f'let a chapter tell of it: {{{{ record.of("{thing.kind.word}") }}}}',
            )
