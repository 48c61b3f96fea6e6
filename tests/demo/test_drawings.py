"""Every drawing of the demo, for every reader: read, told in words, and the same again."""

import re
from pathlib import Path

import pytest

from manual.theme import stylesheet
from record.facts.kind import READERS
from record.log import Log
from record.readers import look
from tests.manual.every_drawing import OF, every_drawing, told_by
from tests.manual.legible import check, says_the_same

MOST_HIGH_MM = 228  # on paper; what is higher is made smaller, as the stylesheet has it
LEAST_PT = 7.0
SECRETS = re.compile(r"\b(S-1|S-2|S-3|SH-1|SM-3|wrecking|sand-filled)\b")


@pytest.fixture(scope="module")
def entries(built: Path):
    with Log.open(built / "larch-end") as log:
        return tuple(log.entries())


@pytest.fixture(scope="module", params=READERS)
def drawn(request, entries):
    """The reader, what they may see, and every drawing of it by what asks for it."""
    view = look(entries, request.param)
    return request.param, view, dict(every_drawing(view))


def test_every_kind_of_drawing_is_made_of_the_demo(drawn):
    reader, _, drawings = drawn
    knows = reader in ("owner", "responder")
    for name in OF:
        made = [asked for asked in drawings if asked == name or asked.startswith(f"{name} ")]
        assert bool(made) == (knows or name not in ("way out", "way plan")), name
    assert sum(asked.endswith((" face A", " face B", " face LK")) for asked in drawings) == 18


def test_each_can_be_read_and_its_words_name_the_same_things(drawn):
    _, view, drawings = drawn
    tags = frozenset(tag for tag in view.built.things if "-" in tag)
    for asked, drawing in drawings.items():
        try:
            check(drawing)
            if asked != "floor map":
                says_the_same(drawing, tags)
        except AssertionError as fault:
            raise AssertionError(f"{asked}: {fault}") from fault


def test_none_is_made_so_small_to_fit_a_page_that_it_cannot_be_read(drawn):
    """72 points are 25.4 mm."""
    assert f"max-height: {MOST_HIGH_MM}mm" in stylesheet()
    for asked, drawing in drawn[2].items():
        shrunk = min(1.0, MOST_HIGH_MM / drawing.height_mm, 170 / drawing.width_mm)
        least = min(box.size_mm for box in drawing.labels) * 72 / 25.4
        assert shrunk * least >= LEAST_PT, (asked, drawing.height_mm)


def test_what_is_the_owners_is_in_no_drawing_of_a_worker(drawn):
    reader, _, drawings = drawn
    bytes_of = {asked: each.svg + each.alt for asked, each in drawings.items()}
    if reader in ("technician", "trade"):
        shown = {a: SECRETS.findall(text) for a, text in bytes_of.items()}
        assert not {asked: found for asked, found in shown.items() if found}
    if reader == "owner":
        whole = " ".join(bytes_of.values())
        assert len(set(SECRETS.findall(whole))) == 7


def test_two_processes_with_other_orders_of_sets_draw_the_same_bytes(built: Path):
    one, other = (told_by(built / "larch-end", ("owner",), seed) for seed in ("3", "4711"))
    assert one == other and len(one.splitlines()) > 50
