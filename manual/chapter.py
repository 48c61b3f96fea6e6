"""Chapters: Markdown files that ask the record → one HTML body.

A chapter is Markdown with Jinja expressions. It fails, with its file, its line and what it may
have meant, when it asks for something the record cannot have; a manual never prints a hole.
"""

from __future__ import annotations

import re
import traceback
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from html import escape, unescape
from typing import TYPE_CHECKING, Any

from manual.asks.asking import AskFault, in_markdown
from manual.asks.marks import CHANGED_ROW, as_template
from manual.languages import say, spoken

if TYPE_CHECKING:
    from jinja2 import StrictUndefined


@dataclass(frozen=True, slots=True)
class Chapter:
    """One chapter as written: its file's name and its text."""

    name: str
    text: str


class ChapterFault(Exception):
    """A chapter cannot be written; the text says which, where, and what to do."""


def chapters() -> tuple[Chapter, ...]:
    """Return the chapters in the language that is spoken, in the order of their numbers."""
    return tuple(Chapter(name, text) for name, text in spoken().chapters.items())


def write(chapter: Chapter, asked: Mapping[str, Any]) -> str:
    """Return a chapter as HTML, filled from ``asked``. Raises ChapterFault."""
    return to_html(fill(chapter, asked))


def fill(chapter: Chapter, asked: Mapping[str, Any]) -> str:
    """Return a chapter's Markdown with everything it asks for in its place."""
    from jinja2 import Environment, TemplateSyntaxError, UndefinedError

    environment = Environment(
        undefined=_unknown(),
        finalize=in_markdown,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    if "drawing" in asked:
        environment.filters["drawing"] = asked["drawing"]
    try:
        code = environment.compile(as_template(chapter.text), chapter.name, chapter.name)
        template = environment.template_class.from_code(
            environment, code, environment.make_globals(None)
        )
        return template.render(asked)
    except TemplateSyntaxError as fault:
        raise ChapterFault(f"{chapter.name}:{fault.lineno}: {fault.message}") from fault
    except (AskFault, UndefinedError) as fault:
        line = _line(fault, chapter.name)
        raise ChapterFault(f"{chapter.name}:{line}: {_said(fault, asked)}") from fault
    except (TypeError, ValueError, ArithmeticError, LookupError, AttributeError) as fault:
        line = _line(fault, chapter.name)
        raise ChapterFault(f"{chapter.name}:{line}: it cannot be worked: {fault}") from fault


def _unknown() -> type[StrictUndefined]:
    """Return what stands for a name nobody knows: it stops the chapter and says what is near."""
    from jinja2 import StrictUndefined
    from jinja2.utils import missing

    class Unknown(StrictUndefined):
        @property
        def _undefined_message(self) -> str:
            of, name = self._undefined_obj, str(self._undefined_name)
            if of is missing or self._undefined_hint:
                return str(super()._undefined_message)
            names = of if isinstance(of, Mapping) else [n for n in dir(of) if n[:1] != "_"]
            near = get_close_matches(name, map(str, names), 1, 0.5)
            hint = f'; did you mean "{near[0]}"?' if near else ""
            return f'a {type(of).__name__} has no "{name}"{hint}'

    return Unknown


def _line(fault: Exception, name: str) -> int:
    """Return the chapter's line: the last frame of the traceback that lies in it."""
    frames = traceback.extract_tb(fault.__traceback__)
    return next((f.lineno or 0 for f in reversed(frames) if f.filename == name), 0)


def _said(fault: Exception, asked: Mapping[str, Any]) -> str:
    text = str(fault)
    unknown = re.fullmatch(r"'(\w+)' is undefined", text)
    if not unknown:
        return text
    near = get_close_matches(unknown[1], asked, 1, 0.5)
    hint = f'; did you mean "{near[0]}"?' if near else ""
    return f'there is nothing called "{unknown[1]}" to ask for{hint}'


def to_html(markdown: str) -> str:
    """Return Markdown (CommonMark with tables, HTML let through) as HTML."""
    from markdown_it import MarkdownIt

    html = str(MarkdownIt("commonmark", {"html": True}).enable("table").render(markdown))
    html = _ID.sub(lambda found: f' id="{unescape(found[1])}"', html)
    html = html.replace(f"<tr>\n<td>{CHANGED_ROW}", '<tr class="changed">\n<td>')
    html = NO_HEADINGS.sub(_as_facts, html)
    html = _NO_ROWS.sub(_with_a_row, html)
    return html.replace("<th>", '<th scope="col">')


#: A name of a place in the page, its hyphens escaped as all that is not mark-up.
_ID = re.compile(r' id="((?:[\w-]|&#45;)+)"')


#: A table whose headings are empty is a list of facts: its first column holds the names.
NO_HEADINGS = re.compile(
    r"<table>\n<thead>\n<tr>\n(?:<th></th>\n)+</tr>\n</thead>\n(<tbody>.*?</tbody>)\n</table>",
    re.DOTALL,
)


#: Headings with nothing under them look as if something had been left out.
_NO_ROWS = re.compile(r"(<thead>(?:(?!</thead>).)*</thead>)\n</table>", re.DOTALL)


def _with_a_row(table: re.Match[str]) -> str:
    said = escape(say("chapter.nothing_in_this_copy"))
    cell = f'<td colspan="{table[1].count("<th>")}"><span class="gap">{said}</span></td>'
    return f"{table[1]}\n<tbody>\n<tr>\n{cell}\n</tr>\n</tbody>\n</table>"


def _as_facts(table: re.Match[str]) -> str:
    named = re.sub(r"(<tr[^>]*>)\n<td>(.*?)</td>", r'\1\n<th scope="row">\2</th>', table[1])
    return f'<table class="facts">\n{named}\n</table>'
