"""The emergency pages by themselves: one small HTML file for a phone, and cards for a wall.

Both are the chapter's own words, set anew: whoever reads a card reads what the manual says.
"""

from __future__ import annotations

import html
import re

from manual import chapter as chapters
from manual import theme
from manual.asks.asked import emergency_asked
from manual.asks.asking import AskFault
from manual.bound.book import Book
from manual.contents import with_contents
from manual.languages import say, spoken
from manual.plans.photos import none_kept, put_seen
from manual.printing import press

CHAPTER = "01-emergency.md"
#: No font travels along, so that the file stays small: any plain one of the phone will do.
PLAIN = "html { font-family: sans-serif; }"
_HEADING = re.compile(r'<h1 id="([^"]*)">(.*?)</h1>', re.DOTALL)


def loose_body(book: Book) -> str:
    """Return the emergency pages as HTML, each with an id at its heading. Raises ChapterFault."""
    try:
        asked = emergency_asked(book)
    except AskFault as fault:
        raise chapters.ChapterFault(str(fault)) from fault
    one = next(each for each in chapters.chapters() if each.name == CHAPTER)
    return with_contents(chapters.write(one, asked))


def loose_page(book: Book, body: str) -> bytes:
    """Return one HTML file that needs no network and no script. Raises PressFault."""
    links = "\n".join(
        f'<li><a href="#{name}">{words}</a></li>' for name, words in _HEADING.findall(body)
    )
    name = book.view.built.site_name()
    head = (
        f"<h1>{html.escape(name)}: {html.escape(say('loose.what_has_happened'))}</h1>\n"
        f'<nav class="contents events" aria-label="{html.escape(say("loose.contents"))}">'
        f"<ol>\n{links}\n</ol></nav>"
    )
    foot = f"<p>{html.escape(_from(book))}</p>"
    shown = put_seen(body, book.kept)
    whole = f'<div class="manual loose">\n{head}\n{shown}\n{foot}\n</div>'
    return press.plain_page(
        whole,
        title=say("loose.emergency_pages", book=name),
        lang=spoken().code,
        css=f"{theme.stylesheet()}\n{PLAIN}",
    ).encode("utf-8")


def cards(book: Book, body: str) -> bytes:
    """Return the pages as cards of A6, as a PDF: the steps, and whom to call. Raises PressFault."""
    # A card is found by its heading; an id would only be the same as in the manual.
    plain = _HEADING.sub(r"<h1>\2</h1>", put_seen(body, none_kept))
    said = html.escape(_from(book))
    whole = f'<div class="cards" data-from="{said}">\n{plain}\n</div>'
    name = book.view.built.site_name()
    page = theme.page(
        whole,
        title=say("loose.emergency_cards", book=name),
        lang=spoken().code,
    )
    return press.lay_out(page, stamp=book.stamp, identifier=book.point.hash.encode()[:32])


def _from(book: Book) -> str:
    reader = book.view.reader
    return say(
        "loose.edition_as_recorded_to",
        book=book.view.built.site_name(),
        edition=book.edition,
        reader=reader,
        recorded_to=book.recorded_to,
    )
