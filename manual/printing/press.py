"""HTML to one PDF, or to one HTML file that needs nothing else.

The same HTML, stamp and identifier give the same bytes. Anything that would print other than
as it was written stops the press: a letter our fonts lack, a font that is not ours, a rule the
layout did not understand, a picture it could not load.
"""

import gc
import html as markup
import logging
import os
import re
import warnings
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from typing import Any

from manual import theme
from manual.printing import outside
from manual.printing.pdf_claims import VARIANT, claim_both
from manual.printing.pdf_finish import Attached, attachment, finished
from manual.proof.pages import Pages

_TAGS = re.compile(r"<(style|script)\b.*?</\1\s*>|<[^>]*>", re.DOTALL | re.IGNORECASE)
_OURS = frozenset(face.family for face in theme.FACES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blot:
    """One thing that would spoil the print: where, what is wrong, the words, what to do."""

    place: str
    wrong: str
    line: str
    instead: str

    def __str__(self) -> str:
        return f"{self.place}: {self.wrong}\n    {self.line}\n  instead: {self.instead}"


class PressFault(Exception):
    """The page cannot be printed as written; `blots` holds every reason at once."""

    def __init__(self, blots: Iterable[Blot]) -> None:
        self.blots = tuple(blots)
        super().__init__("\n".join(map(str, self.blots)))


def lay_out(
    html: str, *, stamp: datetime, identifier: bytes, attached: Sequence[Attached] = ()
) -> bytes:
    """A PDF/A-3a and PDF/UA-1 file of a whole HTML document, laid out by the theme.

    `stamp` (aware) is the only date in the file; `identifier` becomes its PDF identifier, so
    take it from the content. The environment variable SOURCE_DATE_EPOCH is set during the
    call, as reproducible-builds.org has it: do not press from two threads at once.
    Raises PressFault, and ValueError for a stamp without a zone.
    """
    if stamp.tzinfo is None:
        raise ValueError("the stamp has no time zone")
    with _source_date(stamp), _few_sweeps(), _complaints() as complaints:
        document = _render(_parsed(html))
        document.metadata.created = document.metadata.modified = _w3c(stamp)
        claim_both(document.metadata)
        pdf = document.write_pdf(
            pdf_variant=VARIANT,
            pdf_identifier=identifier,
            attachments=[attachment(each, stamp) for each in attached],
            finisher=partial(finished, attached=attached),
        )
    blots = (*_strange_letters(html, complaints, document), *_warnings(complaints))
    if blots:
        raise PressFault(blots)
    return bytes(pdf)


def page_count(html: str) -> int:
    """Return on how many pages a whole HTML document comes to lie."""
    with _complaints():
        return len(_render(_parsed(html)).pages)


def proof(html: str) -> tuple[Pages, tuple[Blot, ...]]:
    """Return a whole HTML document laid out to be read over, and what would stop the press."""
    with _few_sweeps(), _complaints() as complaints:
        page = _parsed(html)
        document = _render(page)
        document.write_pdf(pdf_variant=VARIANT)  # which letters fall to which font, only this tells
    pages = Pages(page.etree_element, document)
    return pages, (*_strange_letters(html, complaints, document), *_warnings(complaints))


def self_contained(html_body: str, *, title: str, lang: str, css: str) -> str:
    """One HTML file that fetches nothing and leads nowhere else: fonts and style inside it.

    Links within the page, `mailto:` and `tel:` may stay. Raises PressFault for any other.
    """
    from manual.printing import screen

    _refuse_outside(html_body, css)
    style = f"{theme.font_rules()}\n{css}"
    body = screen.for_screen(html_body)
    return theme.page(body, title=title, lang=lang, style=style, policy=screen.policy())


def plain_page(html_body: str, *, title: str, lang: str, css: str) -> str:
    """One HTML file that fetches nothing, without a script and in the fonts of the device.

    Raises PressFault for a link that leads elsewhere.
    """
    _refuse_outside(html_body, css)
    return theme.page(html_body, title=title, lang=lang, style=css)


def _refuse_outside(html_body: str, css: str) -> None:
    blots = [
        Blot(
            place=f"line {found.line}, {found.place}",
            wrong="refers to something outside the page",
            line=found.target,
            instead="put it in the page as a data: URI, or name it in words",
        )
        for found in outside.references(html_body, css=css)
    ]
    if blots:
        raise PressFault(blots)


def _parsed(html: str) -> Any:
    from weasyprint import HTML  # type: ignore[import-untyped]

    return HTML(string=html, url_fetcher=_only_inside())


def _render(page: Any) -> Any:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]

    fonts = FontConfiguration()
    sheet = CSS(
        string=f"{theme.font_rules()}\n{theme.stylesheet()}",
        url_fetcher=_only_inside(),
        font_config=fonts,
    )
    return page.render(font_config=fonts, stylesheets=[sheet])


def _only_inside() -> Any:
    from weasyprint.urls import URLFetcher  # type: ignore[import-untyped]

    return URLFetcher(allowed_protocols={"data"})


def _w3c(stamp: datetime) -> str:
    return stamp.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


@contextmanager
def _source_date(stamp: datetime) -> Iterator[None]:
    """SOURCE_DATE_EPOCH in whole seconds, put back as it was afterwards."""
    name = "SOURCE_DATE_EPOCH"
    before = os.environ.get(name)
    os.environ[name] = str(int(stamp.timestamp()))
    try:
        yield
    finally:
        if before is None:
            del os.environ[name]
        else:
            os.environ[name] = before


@contextmanager
def _few_sweeps() -> Iterator[None]:
    """Look for dead rings of objects seldom: a layout makes many objects and few such rings."""
    before = gc.get_threshold()
    gc.set_threshold(50_000, 20, 1000)
    try:
        yield
    finally:
        gc.set_threshold(*before)


class _Listener(logging.Handler):
    def __init__(self, heard: list[logging.LogRecord]) -> None:
        super().__init__(logging.WARNING)
        self._heard = heard

    def emit(self, record: logging.LogRecord) -> None:
        self._heard.append(record)


@contextmanager
def _complaints() -> Iterator[list[logging.LogRecord]]:
    """What the layout warns of, kept from the terminal and heard whatever the log level is."""
    heard: list[logging.LogRecord] = []
    logger = logging.getLogger("weasyprint")
    listener, level, propagates = _Listener(heard), logger.level, logger.propagate
    logger.addHandler(listener)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    try:
        with warnings.catch_warnings():
            # A machine without fonts is as good as any: the page brings its own.
            warnings.filterwarnings("ignore", "No fonts configured")
            yield heard
    finally:
        logger.removeHandler(listener)
        logger.setLevel(level)
        logger.propagate = propagates


def _is_missing_letter(record: logging.LogRecord) -> bool:
    return str(record.msg).startswith(".notdef")


def _strange_letters(html: str, complaints: list[logging.LogRecord], document: Any) -> list[Blot]:
    """One blot a letter: those no font has, and those that fell to a font of the machine."""
    fell_to: dict[str, str] = {}
    for record in complaints:
        if _is_missing_letter(record) and isinstance(record.args, tuple):
            fell_to[str(record.args[0])] = ""
    for font in document.fonts.values():
        if font.family in _OURS:
            continue
        letters = set("".join(font.to_unicode.values()))
        fell_to |= dict.fromkeys(letters - {" "} or letters, font.family)
    words = markup.unescape(_TAGS.sub(" ", html))
    return [_blot_for(letter, family, words) for letter, family in sorted(fell_to.items())]


def _blot_for(letter: str, family: str, words: str) -> Blot:
    at = words.find(letter)
    around = words[max(0, at - 30) : at + 30] if at >= 0 else letter
    fallen = f"would be printed in {family}, a font of this machine" if family else "has no glyph"
    return Blot(
        place=f"“{letter}” (U+{ord(letter):04X})",
        wrong=f"{fallen}; the manual's own fonts lack it or were not asked for",
        line=" ".join(around.split()),
        instead="write it with letters the fonts have, and leave font-family to the theme",
    )


def _warnings(complaints: list[logging.LogRecord]) -> list[Blot]:
    said = dict.fromkeys(
        record.getMessage() for record in complaints if not _is_missing_letter(record)
    )
    return [
        Blot(
            place="page layout",
            wrong="the layout did not follow the page",
            line=message,
            instead="mend the HTML or the style rule it names",
        )
        for message in said
    ]
