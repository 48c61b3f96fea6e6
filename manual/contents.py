"""The table of contents: every chapter's heading, with a place to jump to."""

from __future__ import annotations

import html
import re

from manual.asks.marks import CONTENTS
from manual.languages import say

HEADING = re.compile(r"<h1>(.*?)</h1>", re.DOTALL)


def with_contents(body: str) -> str:
    """Return the body with an id on every first heading and their list at its mark."""
    found: list[tuple[str, str]] = []

    def mark(heading: re.Match[str]) -> str:
        words = heading[1]
        identifier = _identifier(words, [known for known, _ in found])
        found.append((identifier, words))
        return f'<h1 id="{identifier}">{words}</h1>'

    marked = HEADING.sub(mark, body)
    items = "\n".join(f'<li><a href="#{i}">{words}</a></li>' for i, words in found)
    label = html.escape(say("contents.label"))
    return marked.replace(
        CONTENTS, f'<nav class="contents" aria-label="{label}">\n<ol>\n{items}\n</ol>\n</nav>'
    )


def _identifier(words: str, taken: list[str]) -> str:
    plain = html.unescape(re.sub(r"<[^>]+>", "", words)).casefold()
    base = "-".join(re.findall(r"[a-z0-9]+", plain)) or "part"
    name, count = base, 2
    while name in taken:
        name, count = f"{base}-{count}", count + 1
    return name
