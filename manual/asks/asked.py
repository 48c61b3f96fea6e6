"""Everything a chapter may ask for, by name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from typing import Any

from markupsafe import Markup

from manual.asks.asking import Answer, AskFault, Record, sentence
from manual.asks.build_days import Told, build_days, tells
from manual.asks.cards import dues_of, task_cards
from manual.asks.doubt import doubt
from manual.asks.emergency import pages
from manual.asks.fire import fire_page
from manual.asks.floors import floor_area, round_floor_area, round_inside
from manual.asks.marks import CHANGED_ROW, drawing
from manual.asks.open_ends import handed, kept_until, still_there, visits_open
from manual.asks.parts import lots, parts
from manual.asks.plan_ahead import season_words, strips, ten_years, visits_ahead, year_ahead
from manual.asks.releases import went_on
from manual.asks.schedules import FaceTold, RunTold, faces_told, run_told
from manual.asks.signed import last_signed
from manual.asks.systems import systems
from manual.asks.tables import look_row, rest_told, tried
from manual.asks.where import behind_boards, in_the_ground, spots_told
from manual.asks.worked import worked_told
from manual.bound.book import Book
from manual.languages import plural, say, term
from manual.plans.faces import bare_faces
from manual.plans.photos import Album
from record.accounts.proof_words import doubts_of, void_rows
from record.accounts.proofs import proofs
from record.answers.find_tapes import lost
from record.checks import HANDOVER_RULES, RULES
from record.entry import Entry
from record.facts.kind import OWNER
from record.facts.looks import LOOKS
from record.facts.swaps import SWAPPED
from record.fold import Thing, natural
from record.fold.looks import every_chain
from record.upkeep import Due


def asked_of(book: Book) -> Mapping[str, Any]:
    """Return the names chapters may use; each is a value or a function of the record's words."""
    view = book.view
    changed_tags = {tag for entry in book.changed for tag in _changed(entry)}
    changed_tags |= {entry.number for entry in book.changed}
    first = book.before is None
    dues = dues_of(book)
    proved = proofs(view)
    void, in_short = doubts_of(proved), doubts_of(proved, why=False)
    faces = _faces(book)
    behind = behind_boards(view, faces)
    asked = emergency_asked(book)
    emergency, cards = asked["emergency"], list(task_cards(dues))
    tell_tried = partial(tried, view, void)

    def changed(*of: Answer | str) -> bool:
        tags = {one if isinstance(one, str) else str(one.tag) for one in of}
        return not first and bool(tags & changed_tags)

    def bar(*of: Answer | str) -> Markup:
        """Open a block; with a bar beside it where any of these changed since the last edition."""
        return Markup('<div class="changed">' if changed(*of) else "<div>")

    def row(*of: Answer | str) -> Markup:
        """Begin a row of a table, which then has such a bar."""
        return CHANGED_ROW if changed(*of) else Markup("")

    return {
        **asked,
        "edition": book.edition,
        "before": book.before,
        "recorded_to": book.recorded_to,
        "point": book.point,
        "version": book.version,
        "withheld": view.withheld,
        "unread": [u.entry.number for u in view.built.unread],
        "runs": _runs(book),
        "faces": faces,
        "systems": list(systems(view, emergency, cards, tell_tried)),
        "in_the_ground": list(in_the_ground(view)),
        "spots": partial(spots_told, view),
        "behind": behind,
        "lost": lost(view.built),
        "bare_faces": bare_faces(view),
        "panelled": list(dict.fromkeys(face.hull for face in faces)),
        "dues": dues,
        "tasks": cards,
        "ahead": partial(_ahead, book, dues),
        "days": build_days(book),
        "changes": [Told(entry) for entry in book.changed if tells(entry)],
        "sources": _sources(view.built.things.values()),
        "bar": bar,
        "row": row,
        "end": Markup("</div>"),
        "fire": fire_page(view),
        "doubt": doubt(book),
        "tests": [look_row(look, in_short) for look in view.built.happened(*LOOKS)],
        "went_on": list(went_on(view)),
        "asked_before": [*RULES, *(HANDOVER_RULES if view.reader == OWNER else ())],
        "still_there": list(still_there(view)),
        "visits_open": list(visits_open(view)),
        "handed": handed(view, book.recorded_to),
        "kept_until": kept_until(view, book.recorded_to),
        "chains": [chain.words for chain in every_chain(view.built)],
        "undone": list(void_rows(proved)),
        "rest": list(rest_told(view)),
        "tried": tell_tried,
        "worked": worked_told(view),
        "rests_on": rests_on,
        "metres": metres,
        "floor_area": floor_area,
        "is_round": round_inside,
        "round_floor_area": round_floor_area,
        "hash": in_fours,
        "drawing": drawing(view),
        "photos": Album(view),
        "parts": list(parts(view)),
        "lots": list(lots(view)),
        "signed": (signed := last_signed(book)),
        "since_signed": [Told(entry) for entry in signed.entries] if signed else [],
    }


def _ahead(book: Book, dues: Sequence[Due], what: str) -> Any:
    """Return what upkeep looks like ahead, counted on the day the record reaches."""
    today = date.fromisoformat(book.recorded_to)
    match what:
        case "year":
            return year_ahead(dues, today)
        case "decade":
            return ten_years(dues, today)
        case "visits":
            return list(visits_ahead(book.view, dues, today))
        case "seasons":
            return list(season_words(book.view))
        case "strips":
            return list(strips(book.view))
    raise AskFault(f'"{what}" is no look ahead')


def emergency_asked(book: Book) -> Mapping[str, Any]:
    """Return what the emergency pages alone may ask for."""
    record = Record(book.view)
    return {
        "record": record,
        "site": _site(record),
        "reader": book.view.reader,
        "emergency": pages(book.view),
        "sentence": sentence,
        "term": term,
        "plural": plural,
        "terms": lambda words: ", ".join(map(term, words)),
        "told": bool,  # of a value: whether there is one
    }


def _site(record: Record) -> Answer:
    sites = record.of("site")
    if not sites:
        if record.withheld:
            raise AskFault(
                f'the reader "{record.reader}" may not see the site, so no copy can be made'
            )
        raise AskFault("the record has no site any more; state it again in a day sheet")
    return sites[0]


def _runs(book: Book) -> list[RunTold]:
    return [run_told(book.view, run) for run in book.view.built.of_kind("run")]


def _faces(book: Book) -> list[FaceTold]:
    return list(faces_told(book.view))


def rests_on(*answers: Answer) -> Markup:
    """Return the numbers of the entries that things rest on."""
    found: dict[str, None] = {}
    for answer in answers:
        of = answer.thing
        entries = of.all_entries() if isinstance(of, Thing) else of.entries()
        found.update({entry.number: None for entry in entries})
    # Entry numbers are letters, digits and a hyphen: nothing in them can become mark-up.
    return Markup(", ".join(found))


def in_fours(sha256: str) -> str:
    """Return a hash in groups of four, to be read off paper and to break on a small screen."""
    return " ".join(sha256[at : at + 4] for at in range(0, len(sha256), 4))


def metres(value: float | None) -> str:
    return say("asked.not_recorded") if value is None else f"{value:.3f}"


def _changed(entry: Entry) -> Iterator[str]:
    """Yield the tags of which an entry changes what is told: of a swap, both."""
    if entry.content is not None:
        yield entry.content.about.partition("/")[0]
        if entry.content.kind == SWAPPED.stored:
            yield str(entry.content.body.get("with", ""))


def _sources(things: Iterable[Thing]) -> list[tuple[str, str, str]]:
    """Return, for every thing, its tag, kind and the entries it rests on."""
    return list(_source_rows(things))


def _source_rows(things: Iterable[Thing]) -> Iterator[tuple[str, str, str]]:
    for thing in sorted(things, key=lambda t: (t.kind.word, natural(t.tag))):
        yield thing.tag, term(thing.kind.word), ", ".join(e.number for e in thing.all_entries())
