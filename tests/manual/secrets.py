"""Words that a reader may not see, planted in every field of every kind, and looked for."""

from __future__ import annotations

import base64
import hashlib
import io
import re
import subprocess
from dataclasses import dataclass
from html import unescape

import pikepdf

from record.entry import Content, seal
from record.facts import KINDS
from record.facts.faults import ValueFault
from record.facts.fields import Clock, Count, Day, OneOf, YesNo
from record.facts.kind import EVERYONE, Sort
from record.facts.named import EntryOf, TagOf, TagsOf
from record.facts.sizes import Measure, Number, PipeLevel
from record.facts.values import to_json
from tests.manual.books import BUILT
from tests.record.building import entries_of

WORD = "qanary"  # every planted word starts with it
UNITS = ("m", "°", "°C", "kg", "Pa", "W", "%", "min", "l/s", "V", "A", "l", "m2", "kg/m3")


@dataclass(frozen=True, slots=True)
class Plant:
    """What is planted in fields that hold no words, and the signs of it that a copy could bear."""

    day: str
    clock: str
    count: str
    number: str
    signs: tuple[str, ...]


#: In the entries of the owner alone. A number is told to three places, a day in words too.
OWN = Plant(
    "2097-11-23", "03:47", "73197", "1.73197",
    ("2097", "20971123", "03:47", "73197", "1.732 m", "qn-73197"),
)  # fmt: skip
FOR_SOME = Plant("2031-05-20", "18:00", "2", "1.5", ())
#: What may be seen by all, for a secret to be fastened to.
SEEN = {"hull": "A", "run": "AIR-IN", "valve": "CV-1", "equipment": "AU-1", "procedure": "PR-1"}
ROWS = {kind.rows: kind for kind in KINDS.values() if kind.rows and kind.rows.sort is Sort.THING}


def _text(holds, word, plant):
    """Return what this field takes; None for what is measured."""
    match holds:
        case TagOf() | TagsOf():
            return next((SEEN[kind] for kind in holds.kinds if kind in SEEN), f"{word}-1")
        case Day():
            return plant.day
        case Clock():
            return plant.clock
        case Count():
            return plant.count
        case Number():
            return plant.number
        case PipeLevel():
            return f"invert {plant.number} m"
        case Measure():
            return None
        case OneOf():
            return holds.words[0]
        case YesNo():
            return "yes"
        case EntryOf():
            return f"qn-{plant.count}"
    return f"{word} of the owner"


def _measured(holds, number):
    for unit in UNITS:
        try:
            return holds.read(f"{number} {unit}")
        except ValueFault:
            continue
    return None


def _body(kind, word, plant):
    """Return a body with every field of a kind filled in."""
    body = {}
    for at, field in enumerate(kind.fields):
        said = _text(field.holds, f"{word}F{at}q", plant)
        measured = said is None
        value = _measured(field.holds, plant.number) if measured else field.holds.read(said)
        if value is not None:
            body[field.name] = to_json(value)
    return body


def _about(kind, word):
    if kind.word == "site":
        return "fern-bank"
    if kind in ROWS:
        above = ROWS[kind].word
        return f"{SEEN.get(above, f'{word}-1')}/{word}R"
    if kind.sort is Sort.THING:
        return f"{word}-1"
    return next((SEEN[a] for a in kind.about if a in SEEN), "A" if not kind.about else f"{word}-1")


def _content(kind, word, readers, plant):
    # That something was done on a day is told on purpose, where it undid a test that is seen.
    when = plant if kind.sort is Sort.THING else FOR_SOME
    return Content(
        kind=kind.stored,
        version=kind.version,
        about=_about(kind, word),
        on=when.day,
        at=when.clock,
        zone="America/Denver",
        did=f"{word}did",
        saw=f"{word}saw",
        by=f"{word}by",
        readers=tuple(sorted(set(readers) | {"owner"})),
        seen={},
        body=_body(kind, word, plant),
        because=f"{word}because",
    )


#: These undo what is seen and hold no words; an edition is entered by the program, for everyone.
NOT_TO_PLANT = ("tags swapped", "withdrawn", "edition issued")


def planted():
    """
    Return the small shelter's entries with every kind in them, each twice: once for the owner
    alone, and once for those the kind is for, where that is not everyone.
    """
    kinds = {kind.word: kind for kind in (*KINDS.values(), *ROWS)}
    contents = []
    for number, kind in enumerate(kinds.values()):
        if kind.word in NOT_TO_PLANT:
            continue
        contents.append(_content(kind, f"{WORD}{number}own", (), OWN))
        if kind.readers != EVERYONE:
            contents.append(_content(kind, f"{WORD}{number}kind", kind.readers, FOR_SOME))
    sealed, prev = [], None
    for seq, content in enumerate(contents, start=1):
        entry = seal(
            content,
            site="fern-bank",
            writer="qw",
            seq=seq,
            recorded="2031-05-20T18:00:00Z",
            prev=prev,
            salt=hashlib.sha256(str(seq).encode()).digest()[:16],
        )
        sealed.append(entry)
        prev = entry.hash
    return (*entries_of(BUILT), *sealed)


def camera_file(sha256):
    """
    Return the file of any photo: its own colour, and the planted words of who took it where the
    camera writes an artist (0x13B), a copyright (0x8298) and a remark. None where nothing is kept.
    """
    from PIL import Image

    planted = re.match(rf"{WORD}(\d+)(own|kind)", sha256)
    if planted is None:
        return None
    held, out = Image.Exif(), io.BytesIO()
    held[0x13B] = held[0x8298] = f"{WORD}{planted[1]}camera"
    picture = Image.new("RGB", (30, 20), COLOURS[planted[2]])
    picture.save(out, "JPEG", exif=held, comment=f"{WORD}{planted[1]}camera".encode())
    return out.getvalue()


COLOURS = {"own": (200, 30, 30), "kind": (30, 30, 200)}


def told_to(reader, found):
    """Return which planted words a reader may be told: those of entries they may see."""
    return {
        word
        for entry in found
        if entry.link.writer == "qw" and reader in entry.content.readers
        for word in re.findall(rf"{WORD}\d+(?:own|kind)", str(entry.content))
    }


def whole_pdf(data):
    """Return all that a PDF holds as texts: every object, with its streams inflated, by place."""
    yield "the raw file", data.decode("latin-1")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for number, thing in enumerate(pdf.objects):
            yield f"strings of object {number}", "\n".join(_strings(thing))
            if isinstance(thing, pikepdf.Stream):
                # A photo is kept as it came: to inflate it would leave out what stands beside it.
                photo = thing.get("/Filter") == "/DCTDecode"
                data = thing.read_raw_bytes() if photo else thing.read_bytes()
                yield f"stream {number}", data.decode("utf-8", "replace")
        for name, attached in pdf.attachments.items():
            yield f"attachment {number}", name + attached.get_file().read_bytes().decode()


def _strings(thing, inner=False):
    """Yield the texts in an object; one that it points at comes in its own turn."""
    if inner and getattr(thing, "is_indirect", False):
        return
    if isinstance(thing, pikepdf.String):
        yield str(thing)
    elif isinstance(thing, (pikepdf.Dictionary, pikepdf.Stream)):
        for key, value in thing.items():
            yield str(key)
            yield from _strings(value, inner=True)
    elif isinstance(thing, pikepdf.Array):
        for value in thing:
            yield from _strings(value, inner=True)


def printed(data):
    """Return the words on the pages, as poppler reads them: in the file they are glyph numbers."""
    done = subprocess.run(["pdftotext", "-", "-"], input=data, capture_output=True, check=True)
    return done.stdout.decode()


def whole_copy(built):
    """Yield (place, text) of everything in an edition's files."""
    page = built.html.decode()
    yield "the page", unescape(page)
    for coded in re.findall(r"data:image/jpeg;base64,([^\"]*)", page):
        yield "a photo of the page", base64.b64decode(coded).decode("latin-1")
    yield "the calendar", re.sub(r"\r\n[ \t]", "", built.calendar.decode())
    yield "the printed pages", printed(built.pdf)
    yield from whole_pdf(built.pdf)


def words_in(built):
    """Return {planted word: the first place} of every planted word in a copy."""
    found = {}
    for place, text in whole_copy(built):
        for hit in re.finditer(rf"{WORD}\d+(?:own|kind|camera)", text, re.IGNORECASE):
            found.setdefault(hit[0].lower(), place)
    return found


#: Where a few digits mean something: elsewhere are glyph numbers, points of a drawing, hashes.
READ = ("the page", "the calendar", "the printed pages", "strings", "attachment")


def signs_in(built):
    """Return {sign of the owner's numbers and days: place}."""
    return {
        sign: place
        for place, text in whole_copy(built)
        if place.startswith(READ)
        for sign in OWN.signs
        if sign in re.sub(r"(?s)<style.*?</style>", "", text)
    }
