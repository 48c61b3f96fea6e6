"""The manual's body for a screen: what scrolls can be reached by key, marks lead, words are found.

Everything here adds to the page that is printed and takes nothing from it: without its one
script, which only searches, it is the same text.
"""

from __future__ import annotations

import base64
import hashlib
import html
import re
from importlib.resources import files

from manual import theme
from manual.languages import say, spoken

_TABLE = re.compile(r"<table\b.*?</table>", re.DOTALL)
_FIRST = re.compile(r"<th\b[^>]*>(.*?)</th>", re.DOTALL)
_DRAWING = re.compile(r"(<figure\b[^>]*>\s*)(<svg\b.*?</svg>)", re.DOTALL)
_LEADS = re.compile(r'<g class="leads" data-to="([^"]*)">(.*?)</g>', re.DOTALL)
_MARK_UP = re.compile(r"<[^>]*>")

SEARCH = """<form class="search" role="search" hidden{words}>
<label for="search-words">{label}</label>
<input id="search-words" type="search" autocomplete="off">
<button type="submit">{find}</button>
<p id="search-told" role="status"></p>
<ul id="search-found"></ul>
</form>"""


def for_screen(body: str) -> str:
    """Return the body of the one HTML file, its script last."""
    body = _TABLE.sub(_wide_table, body)
    body = _DRAWING.sub(
        r"\1" + _wide(say("screen.drawing")).replace("\\", r"\\") + r"\2</div>", body
    )
    body = _LEADS.sub(r'<a class="leads" href="#\1">\2</a>', body)
    return f"{_search()}\n{body}\n<script>{script()}</script>"


def _search() -> str:
    """Return the form, with what the script says in it: {number} stands for how many it found."""
    said = {"found": "found", "more": "found_more", "nothing": "nothing_found"}
    words = {name: spoken().words[f"screen.{key}"] for name, key in said.items()}
    return SEARCH.format(
        words="".join(f' data-{name}="{html.escape(text)}"' for name, text in words.items()),
        label=html.escape(say("screen.search_this_manual")),
        find=html.escape(say("screen.find")),
    )


def script() -> str:
    return (files(theme.__name__) / "search.js").read_text(encoding="utf-8")


def policy() -> str:
    """Return what a browser lets the page do: its own style and this script, and no network."""
    seal = base64.b64encode(hashlib.sha256(script().encode("utf-8")).digest()).decode()
    return (
        f"default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; "
        f"script-src 'sha256-{seal}'; form-action 'none'; base-uri 'none'"
    )


def _wide(name: str) -> str:
    """Open what scrolls sideways on a narrow screen, so that a key can reach it."""
    return f'<div class="wide" role="group" tabindex="0" aria-label="{html.escape(name)}">'


def _wide_table(table: re.Match[str]) -> str:
    first = _FIRST.search(table[0])
    words = html.unescape(_MARK_UP.sub("", first[1])).strip() if first else ""
    name = say("screen.table_of", words=words) if words else say("screen.table")
    return f"{_wide(name)}{table[0]}</div>"
