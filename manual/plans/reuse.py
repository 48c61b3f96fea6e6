"""What is used again: answers within one build, and drawings and small photos by their content.

A drawing is found again by the values it is drawn from, the words it is said in and the code that
draws it; a photo by its bytes. What was used is kept beside the record in a file that can be
deleted, sealed with a key of this person's own, as a folder may be handed on by others.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from manual.drawings.ink import Drawing
from manual.languages import Language, spoken
from record.answers.behind_values import Behind
from record.readers import View

if TYPE_CHECKING:
    from record.log import Log

NAME = "manual.cache"
FORM = 1  # raised whenever what is kept means something else
MOST = 4000  # drawings and photos kept beside one record
T = TypeVar("T")


class _Once:
    """What was worked out for the view that was looked at last."""

    def __init__(self) -> None:
        self.view: View | None = None
        self.known: dict[object, Any] = {}


_once = _Once()


def once(view: View, key: object, work: Callable[[], T]) -> T:
    """Return what ``work`` gives, worked out once for a view in the language that is spoken."""
    if _once.view is not view:
        _once.view, _once.known = view, {}
    whole = (key, id(spoken()))
    if whole not in _once.known:
        _once.known[whole] = work()
    found: T = _once.known[whole]
    return found


def panel_answer(view: View, tag: str) -> Behind:
    """Return what is behind a panel, asked once however many chapters tell of it."""
    from record.answers import behind

    return once(view, ("behind", tag), lambda: behind(view, tag))


class Shelf:
    """Drawings and small photos by their keys: ``old`` from before, ``used`` this time."""

    def __init__(self, old: dict[str, list[bytes]]) -> None:
        self.old = old
        self.used: dict[str, list[bytes]] = {}

    def take(self, key: str, make: Callable[[], list[bytes]]) -> list[bytes]:
        if key not in self.used:
            self.used[key] = self.old.get(key) or make()
        return self.used[key]

    def kept(self) -> dict[str, list[bytes]]:
        """Return what is to be kept: what was used, and of the rest what there is room for."""
        rest = [key for key in self.old if key not in self.used]
        return {**self.used, **{key: self.old[key] for key in rest[: MOST - len(self.used)]}}


_shelf: ContextVar[Shelf | None] = ContextVar("_shelf", default=None)
#: Where nothing is kept beside the record: small photos by the hash of the large, for one process.
_unkept = Shelf({})


class Drawn(NamedTuple):
    """A drawing as it goes into a page: its SVG, and the same in words."""

    svg: str
    alt: str


def drawn_by(draw: Callable[..., Drawing], *values: object, **how: object) -> Drawn:
    """Return what ``draw`` makes of plain values, or made of the same before."""
    shelf = _shelf.get()
    if shelf is None:
        new = draw(*values, **how)
        return Drawn(new.svg, new.alt)
    said = repr((draw.__module__, draw.__qualname__, _code(), _words(spoken()), values, how))

    def make() -> list[bytes]:
        new = draw(*values, **how)
        return [new.svg.encode(), new.alt.encode()]

    svg, alt = shelf.take(hashlib.sha256(said.encode()).hexdigest(), make)
    return Drawn(svg.decode(), alt.decode())


def small(photo: bytes, make: Callable[[bytes], bytes | None], *how: object) -> bytes | None:
    """Return the small copy of a photo that ``make`` makes, or made of the same bytes before."""
    shelf = _shelf.get() or _unkept
    key = f"{hashlib.sha256(photo).hexdigest()} {how}"
    found = shelf.take(key, lambda: [made] if (made := make(photo)) is not None else [])
    return found[0] if found else None


@cache
def _code() -> str:
    """Return a hash of all code that draws: with other code a drawing is another."""
    sources = sorted(files("manual.drawings").iterdir(), key=lambda file: file.name)
    told = hashlib.sha256()
    for file in sources:
        if file.name.endswith(".py"):
            told.update(file.read_bytes())
    return told.hexdigest()


def _words(language: Language) -> str:
    record = language.record
    said = [sorted(each.items()) for each in (language.words, record.said, record.terms)]
    return hashlib.sha256(repr(said).encode()).hexdigest()


@contextmanager
def shelf_of(log: Log) -> Iterator[None]:
    """Use again what was kept beside a record in a folder, and keep what is used now."""
    import msgspec

    from record.index.own import seal, unsealed

    path = log.cache(NAME)
    old: dict[str, list[bytes]] = {}
    body = unsealed(path, log.vault)
    if body is not None:
        try:
            form, old = msgspec.msgpack.decode(body, type=tuple[int, dict[str, list[bytes]]])
            old = old if form == FORM else {}
        except (msgspec.MsgspecError, ValueError):
            old = {}
    shelf = Shelf(old)
    before = _shelf.set(shelf)
    try:
        yield
    finally:
        _shelf.reset(before)
    if shelf.kept() != old:
        seal(path, msgspec.msgpack.encode((FORM, shelf.kept())), log.vault)
