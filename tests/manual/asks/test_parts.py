"""Parts and lots: from a maker's number to what it was built into, of one reader's view."""

from manual.asks.parts import lots, parts
from record.readers import look
from tests.manual.books import body_of, entries
from tests.record.building import day

CANARY = "quetzalcoatlus"
FITTED = """
## equipment AU-2

- type: fan
- maker's part: F-9
- serial: 1234
- lot: L-7
"""
USED = "\n## used\n\n- what: tar\n- amount: 2 kg\n- lot: T-3\n- tags: AIR-IN\n"
HIDDEN = day("2031-05-18", "ow", f"## store S-8\n\n- name: x\n- hull: A\n- looks like: {CANARY}")


def view(*blocks, reader="owner", sheets=()):
    return look(entries(*blocks, sheets=sheets), reader)


def test_a_lot_leads_to_what_names_it_whether_or_not_it_has_an_entry_of_its_own():
    found = {lot.number: lot.used_on for lot in lots(view(FITTED, USED))}
    assert found == {"L-7": "AU-2", "T-3": "AIR-IN"}
    (lot, _) = lots(view(FITTED, USED))
    assert all(told.missing for told in (lot.product, lot.maker, lot.made, lot.expires))


def test_a_lot_with_an_entry_says_its_product_and_where_it_says_it_went():
    own = "\n## lot L-7\n\n- number: 7\n- product: fan\n- maker: works\n- used on: CV-1\n"
    (lot,) = lots(view(FITTED, own))
    assert (str(lot.product), str(lot.maker), lot.used_on) == ("fan", "works", "AU-2, CV-1")


def test_what_has_a_makers_number_stands_by_its_tag_and_what_has_none_does_not():
    (one,) = parts(view(FITTED))
    assert (one.tag, str(one.part), str(one.serial), str(one.lot)) == ("AU-2", "F-9", "1234", "L-7")


def test_nothing_recorded_is_a_blank_and_nothing_withheld_is_told():
    body = body_of(entries(sheets=(HIDDEN,)), "technician")
    assert '<p class="gap">Lots: not recorded</p>' in body and CANARY not in body
