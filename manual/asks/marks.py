"""What a chapter asks to have put in later: a drawing, the table of contents.

A chapter writes ``[[draw: long section AIR-IN]]``. It is turned into an HTML mark while the
chapter is still a template: what a crew typed comes in later, with every "<" escaped, so
nobody's remark can ever ask for a drawing.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable
from difflib import get_close_matches
from typing import TYPE_CHECKING

from markupsafe import Markup

from manual.asks.asking import AskFault

if TYPE_CHECKING:
    from record.readers import View

CONTENTS = '<nav class="contents"></nav>'
#: What stands at the head of a table's row that has a bar beside it.
CHANGED_ROW = Markup("<!--changed-->")
_ASKED = re.compile(r"\[\[\s*(draw:)?\s*((?:\{\{.*?\}\}|[^\]\n])*?)\s*\]\]")
_DRAWING = re.compile(r'<div data-draw="([^"]*)"></div>')
_GAP = re.compile(r"</?span[^>]*>")


def as_template(text: str) -> str:
    """Return a chapter's text with every ``[[…]]`` as the template's own words, line for line."""
    return _ASKED.sub(_asked, text)


def _asked(found: re.Match[str]) -> str:
    if found[1]:
        # The signs keep the spaces and the line end round it, which a block's tags would eat.
        return f"{{%+ filter drawing %}}{found[2]}{{% endfilter +%}}"
    if found[2] == "contents":
        return CONTENTS
    return found[0]


def drawing(view: View) -> Callable[[str], Markup]:
    """Return what marks the place of a drawing, or raises AskFault where nobody can draw it."""
    from manual.plans.pictures import DRAWINGS

    def mark(filled: str) -> Markup:
        words = html.unescape(_GAP.sub("", filled)).strip()
        name = next((n for n in DRAWINGS if words == n or words.startswith(f"{n} ")), None)
        if name is None:
            known = get_close_matches(words, DRAWINGS, 1, 0.4)
            hint = f'; did you mean "{known[0]}"?' if known else f"; there are {_all(DRAWINGS)}"
            raise AskFault(f'there is no drawing "{words}"{hint}')
        tag = words.removeprefix(name).strip()
        if tag and tag not in view.built.things:
            near = get_close_matches(tag, view.built.things, 1, 0.5)
            hint = f'; did you mean "{near[0]}"?' if near else ""
            raise AskFault(f'the record has no "{tag}" to draw{hint}')
        return Markup(f'<div data-draw="{html.escape(words)}"></div>')

    return mark


def _all(names: Iterable[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def put_drawings(body: str, picture: Callable[[str], str]) -> str:
    """Return the body with what ``picture`` makes of each drawing asked for in its place."""
    return _DRAWING.sub(lambda found: picture(html.unescape(found[1])), body)
