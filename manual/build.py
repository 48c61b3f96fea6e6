"""The manual, built in six numbered stages, each from values to values.

    1 read      the log's entries, the editions before
    2 fold      what the reader may see, as built; what is due; what changed
    3 write     chapters filled from the record, Markdown to HTML
    4 draw      every drawing a chapter asked for
    5 lay out   one HTML file that needs nothing else, and the PDF
    6 seal      the files by their hashes, the calendar, and the entry that says so

The same entries, reader and version of the program give the same bytes: the only date in the
files is that of the newest entry.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from manual import chapter as chapters
from manual.asks.asking import AskFault
from manual.bound.book import Book
from manual.bound.editions import editions, last_for, next_number, since
from manual.contents import with_contents
from manual.languages import say, spoken, term
from manual.plans.photos import Kept, none_kept
from manual.printing.enclosed import enclosed
from manual.printing.pdf_finish import Attached
from record.entry import Entry, checkpoint
from record.facts.kind import OWNER
from record.fold import zone_of
from record.readers import look
from record.reserved import Reserved

Progress = Callable[[int, str], None]
STAGES = ("read", "fold", "write the chapters", "draw", "lay out", "seal")

#: Each file of an edition → how the name of a copy ends.
ENDINGS = {
    "pdf": ".pdf",
    "html": ".html",
    "calendar": ".ics",
    "emergency": "-emergency.html",
    "cards": "-cards.pdf",
}


def suffix(name: str) -> str:
    """Return the suffix a file of an edition is kept under."""
    return "." + ENDINGS[name].rpartition(".")[2]


@dataclass(frozen=True, slots=True)
class Built:
    """One edition's files, before they are kept."""

    book: Book
    html: bytes
    pdf: bytes
    calendar: bytes
    emergency: bytes
    cards: bytes

    def files(self) -> Mapping[str, bytes]:
        """Return every file by its name in the entry, in the order of ``ENDINGS``."""
        return {name: getattr(self, name) for name in ENDINGS}

    def hashes(self) -> Mapping[str, str]:
        return {name: hashlib.sha256(data).hexdigest() for name, data in self.files().items()}


def build(
    entries: Sequence[Entry],
    *,
    reader: str = OWNER,
    kept: Kept = none_kept,
    progress: Progress = lambda n, words: None,
    packed: Reserved | None = None,
) -> Built:
    """
    Return the next edition for ``reader``, with the photos that ``kept`` has.

    Of a copy, ``packed`` says what is reserved of what it lacks.

    Raises ChapterFault, PressFault.
    """
    progress(2, "fold")
    book = bind(entries, reader, kept, packed)
    html, page = pages(book, _drawn(book, progress))
    progress(5, STAGES[4])
    pdf = _pressed(book, page, enclosed(entries, reader))
    del page
    progress(6, "seal")
    emergency, cards = loose(book)
    return Built(book, html, pdf, _calendar(book), emergency, cards)


def bind(
    entries: Sequence[Entry],
    reader: str,
    kept: Kept = none_kept,
    packed: Reserved | None = None,
) -> Book:
    """Stage 2: what this edition is made of."""
    from record import VERSION

    issued = editions(entries)
    before = last_for(issued, reader, spoken().code)
    view = look(entries, reader, packed=packed)
    newest = max(entry.link.recorded for entry in entries)
    # Of what this reader sees: the day of a withheld entry is told nowhere in their copy.
    days = [e.content.on for e in view.built.entries if e.content]
    return Book(
        view=view,
        edition=next_number(issued),
        before=before,
        changed=since(view.built.entries, before),
        point=checkpoint(entries[0].link.site, entries),
        recorded_to=max(days, default=newest[:10]),
        stamp=datetime.fromisoformat(newest.replace("Z", "+00:00")).astimezone(UTC),
        zone=zone_of(entries),
        version=VERSION,
        kept=kept,
    )


def write(book: Book) -> str:
    """Stage 3: every chapter as HTML, one after the other, with a table of contents."""
    from manual.asks.asked import asked_of

    try:
        asked = asked_of(book)
    except AskFault as fault:
        raise chapters.ChapterFault(str(fault)) from fault
    parts = [chapters.write(each, asked) for each in chapters.chapters()]
    return with_contents("\n".join(parts))


def draw(book: Book, body: str) -> str:
    """Stage 4: put every drawing and photo where a chapter asked for it."""
    from manual.asks.marks import put_drawings
    from manual.plans.photos import put_photos
    from manual.plans.pictures import picture

    body = put_drawings(body, lambda words: picture(book.view, words))
    return put_photos(body, book.kept)


def lay_out(book: Book, body: str, *, attached: Sequence[Attached] = ()) -> tuple[bytes, bytes]:
    """Stage 5: one HTML file for a screen, and the PDF for paper."""
    html, page = pages(book, body)
    return html, _pressed(book, page, attached)


def pages(book: Book, body: str) -> tuple[bytes, str]:
    """
    Return one HTML file for a screen, and the page that the press lays out.

    Nothing but these is held while the press works: with its photos each is tens of megabytes.
    """
    from manual import theme
    from manual.printing import press

    title, whole = whole_manual(book, body)
    html = press.self_contained(whole, title=title, lang=spoken().code, css=theme.stylesheet())
    return html.encode("utf-8"), theme.page(whole, title=title, lang=spoken().code)


def _pressed(book: Book, page: str, attached: Sequence[Attached]) -> bytes:
    from manual.printing import press

    identifier = book.point.hash.encode()[:32]
    return press.lay_out(page, stamp=book.stamp, identifier=identifier, attached=attached)


def _drawn(book: Book, progress: Progress) -> str:
    """Stages 3 and 4."""
    progress(3, STAGES[2])
    body = write(book)
    progress(4, "draw")
    return draw(book, body)


def whole_manual(book: Book, body: str) -> tuple[str, str]:
    """Return the manual's title, and its body as a page has it."""
    name = book.view.built.site_name()
    title = say("edition.owner_s_manual_edition", name=name, edition=book.edition)
    copy = {"owner": say("edition.owner_s_copy"), "responder": say("edition.responders_copy")}.get(
        book.view.reader, say("edition.s_copy", reader=term(book.view.reader))
    )
    opening = (
        f'<div class="manual" data-unit="{_attribute(name)}" data-edition="{book.edition}" '
        f'data-copy="{copy}" data-recorded-to="{book.recorded_to}">'
    )
    return title, f"{opening}\n{body}\n</div>"


def loose(book: Book) -> tuple[bytes, bytes]:
    """Return the emergency pages by themselves: for a phone, and as cards."""
    from manual.loose import cards, loose_body, loose_page

    body = loose_body(book)
    return loose_page(book, body), cards(book, body)


def _attribute(text: str) -> str:
    return text.replace("&", "&amp;").replace('"', "&quot;").replace("<", "&lt;")


def _calendar(book: Book) -> bytes:
    from manual.asks.cards import dues_of
    from manual.calendar import calendar

    return calendar(
        book.view,
        dues_of(book),
        edition=book.edition,
        stamp=book.stamp,
        zone=ZoneInfo(book.zone),
    )
