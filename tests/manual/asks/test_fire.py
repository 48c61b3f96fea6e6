"""The fire service's page: made of what a responder may see, whoever the copy is for."""

import re

import pytest

from manual import theme
from manual.asks.fire import fire_page
from manual.build import bind, draw, write
from manual.printing import press
from record.readers import look
from tests.manual.asks.test_emergency import BOARD, DOOR
from tests.manual.books import body_of, entries
from tests.record.building import day

CANARY = "quetzalcoatlus"
HIDDEN = (
    f"""
## concealed entry CE-1

- name: {CANARY}
- hull: A
- face: left
- leads to: {CANARY}
- opens: {CANARY}
""",
    f"""
## opening OP-7

- readers: owner
- name: {CANARY}
- hull: A
- face: left
- from near: 1.00 m
- width: 0.60 m
- leads to: {CANARY}
- opens: {CANARY}
""",
)
#: A site that is higher on its plan than wide.
GROUND = """
## landmark H9

- what: house corner
- x: 14.00 m
- y: 52.00 m
"""
KEPT = tuple(
    day("2031-05-18", "ow", block, part=str(number)) for number, block in enumerate(HIDDEN, 2)
)


def told(found):
    return {line.asks: [str(words) for words in line.says] for line in found.lines}


@pytest.mark.parametrize("reader", ["owner", "responder"])
def test_both_copies_hold_the_same_page_and_no_byte_that_a_responder_may_not_see(reader):
    found = entries(DOOR, sheets=KEPT)
    page = fire_page(look(found, reader))
    assert page == fire_page(look(found, "responder"))
    assert CANARY not in repr(page)


def test_the_canary_would_be_found_if_it_were_anybodys_to_see():
    shown = KEPT[1].replace("- readers: owner\n", "")
    assert CANARY in repr(fire_page(look(entries(sheets=(shown,)), "owner")))


@pytest.mark.parametrize("reader", ["technician", "trade"])
def test_other_readers_copies_have_no_such_page(reader):
    assert fire_page(look(entries(), reader)) is None
    assert "For the fire service" not in body_of(entries(), reader)


def test_a_filled_shaft_is_told_as_what_buries_and_never_as_a_way_in():
    page = told(fire_page(look(entries(DOOR, sheets=(BOARD,)), "owner")))
    assert page["Can bury"] == [
        "quiet shaft: dry sand; its top not recorded below grade. Never open it from below"
    ]
    assert page["Ways in and out"] == ["main door, the stairs"]
    assert not any("hatch" in words for words in page["Forced entry"])


def test_a_door_nobody_said_the_place_of_is_a_way_in():
    leaf = "## door D-1\n\n- type: hatch\n- hull: A\n- face: near\n"
    page = told(fire_page(look(entries(leaf), "owner")))
    assert page["Ways in and out"] == [
        "hatch D-1, near face of hull A (where it leads is not recorded)"
    ]


def test_how_many_where_the_air_is_and_what_must_not_be_loaded_are_told():
    page = told(fire_page(look(entries(), "responder")))
    assert page["Most people below"] == ["4"]
    assert page["Air: never block, never park on"] == [
        "supply air, fresh air in: outside at not recorded"
    ]
    assert page["Keep engines off"] == ["the ground over living hull (design cover not recorded)"]
    assert "live" in page["Can shock"][0]


def test_what_nobody_recorded_is_not_recorded_and_never_reads_as_none():
    page = told(fire_page(look(entries(), "responder")))
    for asks in ("Can bury", "Can drown", "Can burn, with poisonous smoke"):
        assert page[asks] == ["not recorded"]


def test_there_is_one_page_and_one_plan_and_it_follows_the_emergency_pages():
    book = bind(entries(), "owner")
    body = draw(book, write(book))
    (page,) = re.findall(r'<section class="sheet fire">(.*?)</section>', body, re.DOTALL)
    assert page.count("<svg") == 1 and "Treat the air below as deadly" in page
    ids = re.findall(r' id="([^"]+)"', body)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("stores", [0, 3, 6])
def test_it_is_one_sheet_however_much_is_told_of_it(stores):
    """Laid out: each store of current that is told takes a line or two from the plan."""
    words = "grey steel cabinet on feet, plant room, right wall, beneath the shelf of tins"
    told = [
        f"## equipment BT-{n}\n\n- type: battery\n- hull: A\n- looks like: {words}"
        for n in range(stores)
    ]
    book = bind(entries(GROUND, sheets=[day("2031-05-18", "ow", *told)] if told else []), "owner")
    body = draw(book, write(book))
    (page,) = re.findall(r'<section class="sheet fire">.*?</section>', body, re.DOTALL)
    assert "<svg" in page
    held = f'<div class="manual">{page}</div>'
    assert press.page_count(theme.page(held, title="x", lang="en")) == 1


def test_letters_on_its_plan_are_not_made_smaller_by_the_sheet():
    """The theme would scale a drawing that is higher than this."""
    (most,) = re.findall(r"\.fire figure svg \{ max-height: (\d+)mm", theme.stylesheet())
    view = look(entries(GROUND), "responder")
    (high,) = re.findall(r'<svg[^>]* height="([\d.]+)mm"', fire_page(view).plan)
    assert float(high) <= float(most)
