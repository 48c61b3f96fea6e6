"""A translation into no language: every letter of the English words wears a mark.

What still stands on a page in plain letters is then no word of the manual's or the record's own:
it came from a crew's entries, or it was never given to a translator.
"""

from __future__ import annotations

import html
import json
import re
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from manual.languages import english
from manual.languages.terms import every_term
from record.entry import Entry
from record.facts import STORED
from record.facts.fields import OneOf

PLAIN = "abcdefghijklmnopqrstuvwxyz"
MARKED = "áḃćďéḟǵȟíĵķľḿńóṕɋŕśťúṽẃẍýź"
LETTERS = str.maketrans(PLAIN + PLAIN.upper(), MARKED + MARKED.upper())
#: What a translator leaves as it is: what is filled in, mark-up, what is typed into a sheet.
KEPT = re.compile(
    r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}|\[\[.*?\]\]|<[^>]*>|&#?\w+;|\{\w*\}|`[^`]*`|\]\([^)]*\)",
    re.DOTALL,
)
#: Within a chapter's own commands a translator writes what is printed: it begins with a capital,
#: or is a form of ``plural``.
LABEL = re.compile(r'(?<=")[A-Z][a-z][^"]*(?=")|(?<=one=")[^"]+|(?<=other=")[^"]+')


def marked(words: str) -> str:
    """Return words in marked letters, but for what a translator leaves as it is."""
    parts, at = [], 0
    for found in KEPT.finditer(words):
        kept = LABEL.sub(lambda label: label.group().translate(LETTERS), found.group())
        parts += [words[at : found.start()].translate(LETTERS), kept]
        at = found.end()
    return "".join(parts) + words[at:].translate(LETTERS)


def folder(home: Path) -> Path:
    """Return a folder of words, chapters and drafts in marked letters, named by a tag."""
    made = home / "qps"
    whole = english()
    for part in ("chapters", "drafts"):
        (made / part).mkdir(parents=True, exist_ok=True)
    _write(made / "words.toml", whole.words)
    _write(made / "record.toml", whole.record.said)
    _write(made / "terms.toml", {term: term for term in every_term()})
    for name, text in whole.chapters.items():
        (made / "chapters" / name).write_text(marked(text), encoding="utf-8")
    for name, text in whole.drafts.items():
        said = tomllib.loads(text)
        for key in ("sign", "danger", "call", "afterwards"):
            said[key] = marked(said[key])
        for step in said["steps"]:
            step.update({key: marked(step[key]) for key in ("do", "caution") if key in step})
        (made / "drafts" / name).write_text(_toml(said), encoding="utf-8")
    return made


def _write(file: Path, words: dict[str, str] | Any) -> None:
    file.write_text(_toml({key: marked(said) for key, said in words.items()}), encoding="utf-8")


def _toml(said: dict[str, Any]) -> str:
    """Return a table as TOML: JSON's strings and lists are TOML's as well."""
    return "".join(f"{json.dumps(key)} = {_value(value)}\n" for key, value in said.items())


def _value(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    return json.dumps(value, ensure_ascii=False)


_PLAIN = re.compile(r"(?<![\w-])[A-Za-z]{3,}(?![\w-])")
#: Units, as SI and the trades write them in every language.
_SYMBOLS = re.compile(
    r"(?<=[\d )])(?:min|ppm|cfm|gpm|kPa|psi|lbf\S*|gal|mil|L/min|ft\S*|rev/min|in w\.g\.|kN\S*)"
)
#: What a crew wrote is cut off where it is long.
_CUT = re.compile(r"[^;]*…")
#: What is typed into a sheet is typed in the record's own words.
_TYPED = re.compile(r'"(?:(?:-|##) [^"]*|[a-z ]{2,30})"')


def still_plain(page: str, own: Iterable[str]) -> Iterator[str]:
    """Yield what stands on a page in plain letters and is none of the ``own`` words of a record."""
    whole = {" ".join(text.split()) for text in own}
    # What stands before a comma, and a station's name behind its key, are told by themselves.
    parts = {part for text in whole for part in (*text.split(", "), text.partition(" ")[2])}
    known = sorted((text for text in whole | parts if text), key=len, reverse=True)
    is_own = re.compile("|".join(rf"(?<!\w){re.escape(text)}(?!\w)" for text in known), re.I)
    for text in _texts(page):
        if not _PLAIN.search(text):
            continue
        text = " ".join(html.unescape(text).split())
        left = _SYMBOLS.sub(" ", is_own.sub(" ", _TYPED.sub(" ", _CUT.sub(" ", text))))
        if _PLAIN.search(left):
            yield " ".join(left.split())


def _texts(page: str) -> Iterator[str]:
    """Yield every text of a page, and what its attributes say to a reader."""
    page = re.sub(r"<(style|script|text)\b.*?</\1>|<!--.*?-->", " ", page, flags=re.DOTALL)
    yield from re.findall(r'\s(?:alt|title|aria-label|placeholder)="([^"]*)"', page)
    page = re.sub(r"</?(?:b|i|em|strong|a|span|tspan)\b[^>]*>", "", page)
    page = re.sub(r"<code>.*?</code>", " ", page, flags=re.DOTALL)
    yield from filter(str.strip, re.split(r"<[^>]*>", page))


def own_words(entries: Iterable[Entry]) -> set[str]:
    """Return what a record's crew wrote: tags, names, remarks, days; choices are the record's."""
    found: set[str] = set()
    for entry in entries:
        found |= {entry.number, entry.link.writer, entry.link.site}
        content = entry.content
        if content is None:
            continue
        found |= {content.about, *content.about.split("/"), content.because or ""}
        found |= {who for who in (content.did, content.saw, content.by) if who}
        kind = STORED.get(content.kind)
        for name, form in content.body.items():
            field = kind.field(name) if kind else None
            if not (field and isinstance(field.holds, OneOf)):
                found.update(_strings(form))
    return found


def _strings(form: Any) -> Iterator[str]:
    if isinstance(form, str):
        yield form
    elif isinstance(form, dict):
        yield from (
            text for key, value in form.items() if key != "absent" for text in _strings(value)
        )
    elif isinstance(form, list):
        yield from (text for value in form for text in _strings(value))
