"""A measure on a page is held together: no line ends between a number and its unit."""

from __future__ import annotations

import re

from record.answers.saying import bound

#: Mark-up, and what is not running text: drawings set their own lines, and what is typed is typed
#: with plain spaces.
_NO_TEXT = re.compile(r"<(svg|style|script|code|pre|title)\b.*?</\1>|<[^>]*>", re.DOTALL)
_FEET = re.compile(r"(?<=\d&#39;) (?=\d)")  # between feet and inches, the sign as mark-up has it


def held(html: str) -> str:
    """
    Return a page whose measures break over no line.

    >>> held('<p title="5 m">11 13/16" deep, <code>5 m</code></p>').replace("\\xa0", "~")
    '<p title="5 m">11~13/16" deep, <code>5 m</code></p>'
    >>> held("7&#39; 10 1/2&#34;").replace("\\xa0", "~")
    '7&#39;~10~1/2&#34;'
    """
    parts, at = [], 0
    for found in _NO_TEXT.finditer(html):
        parts += [_bound(html[at : found.start()]), found.group()]
        at = found.end()
    return "".join((*parts, _bound(html[at:])))


def _bound(text: str) -> str:
    return _FEET.sub("\u00a0", bound(text))
