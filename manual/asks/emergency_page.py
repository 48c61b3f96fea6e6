"""What one emergency page is made of, and how much of its sheet that takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from manual.asks.asking import Told
from manual.drawings.lettering import width_em

NO_PLAN = Markup("")
ON_A_CARD = 700  # letters above which a card needs smaller ones
ROOMY, CLOSE = 560, 1050  # letters on a page, above which its plan gives way

Words = Told | str


@dataclass(frozen=True, slots=True)
class Touched:
    """Something to lay hands on: how it is known, what and where it is, its tag last.

    ``work`` says how it is shut, a name and the words; ``number`` is its number on the plan.
    """

    number: int
    looks_like: Words
    what: str
    where: str
    work: tuple[tuple[str, Words], ...]
    tag: str


@dataclass(frozen=True, slots=True)
class Step:
    """One action, the caution before it, and the numbers of what it touches."""

    do: Words
    caution: Words
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page as it is printed; ``draft`` where nobody recorded a drill."""

    event: str
    heading: str
    draft: bool
    sign: Words
    signal: Words
    danger: Words
    steps: tuple[Step, ...]
    ways_out: Words
    call: Words
    afterwards: Words
    touched: tuple[Touched, ...]
    plan: Markup = NO_PLAN
    seen: Markup = NO_PLAN  # photos of what is touched

    @property
    def letters(self) -> int:
        """How much is written on it."""
        return sum(len(str(words)) for words in _all_words(self))

    @property
    def long(self) -> bool:
        """Whether its letters have to be smaller on a card."""
        return sum(len(str(words)) for words in _card_words(self)) > ON_A_CARD

    @property
    def plan_mm(self) -> float:
        """How high its plan may be: smaller where its words need the room."""
        return 46.0 if self.letters > CLOSE else 66.0 if self.letters > ROOMY else 84.0


def _card_words(page: Page) -> Iterable[Words]:
    yield from (page.sign, page.danger, page.ways_out, page.call, page.afterwards)
    for step in page.steps:
        yield from (step.do, step.caution)


def _all_words(page: Page) -> Iterable[Words]:
    yield from _card_words(page)
    for one in page.touched:
        yield from (one.looks_like, one.what, one.where, *(words for _, words in one.work))


# The sheet as the theme sets it (A4; manual.css, "@page emergency" and ".emergency"), in mm.
HIGH_MM, WIDE_MM = 259.0, 174.0
EM_MM, LINE_MM = 5.12, 6.65  # 14.5 pt, 1.3 lines
KEY_EM_MM, KEY_LINE_MM = 4.24, 5.1  # 12 pt, 1.2 lines
LABEL_EM = 8.0  # of the bold words that lead a line
SET = 0.82  # of the width guessed for a drawing, which is on the wide side


def spare_mm(page: Page, address: str) -> float:
    """Return how much of its sheet a page leaves empty, guessed on the safe side."""
    return HIGH_MM - sum(_blocks_mm(page)) - _beside_mm(page, address)


def _blocks_mm(page: Page) -> Iterator[float]:
    """Yield what is above the plan: heading, sign, danger, steps."""
    yield 14.0
    yield 18.0 if page.draft else 0.0
    yield _text_mm(page.sign, WIDE_MM, LABEL_EM)
    yield 18.0 + _text_mm(page.danger, WIDE_MM - 12)
    yield 20.0
    for step in page.steps:
        more = 2.0 * len(step.numbers) + (4.0 if str(step.caution) else 0.0)
        yield _text_mm(f"{step.caution} {step.do}", WIDE_MM - 22, more) - 0.7


def _beside_mm(page: Page, address: str) -> float:
    """How high the plan is with the words beside it, and what goes on under it."""
    plan = page.plan_mm + 10.0 if page.plan else 0.0
    texts = (page.ways_out, f"{address} {page.call}", page.afterwards)
    down = sum(_text_mm(text, WIDE_MM - plan, LABEL_EM) for text in texts)
    for one in page.touched:
        down += _key_mm(one, WIDE_MM - 6 - (plan if down < plan else 0.0))
    return max(plan, down)


def _text_mm(text: Words, wide_mm: float, more_em: float = 0.0) -> float:
    long_mm = (width_em(str(text)) + more_em) * SET * EM_MM
    return math.ceil(long_mm / wide_mm) * LINE_MM + 1.8


def _key_mm(one: Touched, wide_mm: float) -> float:
    work = "; ".join(f"{name}: {words}" for name, words in one.work)
    said = f"{one.looks_like}: {one.what}, {one.where}; {work} {one.tag}"
    return math.ceil(width_em(said) * SET * KEY_EM_MM / wide_mm) * KEY_LINE_MM + 0.5
