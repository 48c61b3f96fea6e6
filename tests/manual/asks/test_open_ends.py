"""What is there for a time only, left to somebody, or kept and running out."""

import pytest

from manual.asks.open_ends import handed, kept_until, still_there, visits_open
from record.readers import look
from tests.manual.books import body_of, entries
from tests.record.building import day

CAP = "## temporary TP-1\n\n- what: cap\n- on thing: AIR-IN\n- where: terminal\n- off before: use"
OFF = "## taken off TP-1\n\n- note: hung on its hook"
ITEM = "## hand-over item HO-{n}\n\n- what: walk {n}\n- by whom: ld\n- due: {due}\n- state: {state}"
STORE = """
## store S-7

- name: bench
- hull: A

| item | what | count | each | expires |
|---|---|---|---|---|
| 1 | plums | 9 | 1 kg | 2033-01-01 |
| 2 | water | 8 | 20 L | 2031-05-01 |
| 3 | masks | 0 | none | 2030-01-01 |
| 4 | bar | 1 | none | n/a, tool |
"""


def later(text, n=20):
    return day(f"2031-05-{n}", "ld", text)


def view_of(*blocks, sheets=(), reader="owner"):
    return look(entries(*blocks, sheets=sheets), reader)


def test_what_was_put_on_is_told_until_somebody_writes_that_it_came_off():
    [one] = still_there(view_of(CAP))
    assert (one.tag, "AIR-IN" in one.words, "use" in one.words) == ("TP-1", True, True)
    assert not [*still_there(view_of(CAP, sheets=[later(OFF)]))]
    # Put on anew, it is there again.
    assert [*still_there(view_of(CAP, sheets=[later(OFF), later(CAP, 21)]))]


def test_what_was_left_so_only_until_something_is_told_too():
    left = "## left as AIR-IN\n\n- at: 17:30\n- state: plug in\n- until: hand-over"
    [one] = still_there(view_of(sheets=[later(left)]))
    assert one.tag == "AIR-IN" and "plug in" in one.words and one.entries


def test_a_visit_after_which_nobody_wrote_how_a_thing_was_left_is_open():
    served = "## serviced CV-1\n\n- task: valve-exercise\n- done: seat cleaned"
    left = "## left as CV-1\n\n- state: open"
    sheets = [later(left, 18), day("2031-05-20", "te", served)]
    [visit] = visits_open(view_of(sheets=sheets))
    assert (visit.day, visit.writer, visit.tags) == ("2031-05-20", "te", "CV-1")


@pytest.mark.parametrize(
    ("state", "is_open"), [("open", True), ("not done", True), ("done", False), ("half done", True)]
)
def test_open_items_come_first_and_are_past_only_while_they_are_open(state, is_open):
    items = (ITEM.format(n=1, due="2031-05-01", state="done"),
             ITEM.format(n=2, due="2031-05-01", state=state))  # fmt: skip
    found = handed(view_of(*items), "2031-05-20")
    assert found[0].item.tag == ("HO-2" if is_open else "HO-1")
    assert [one.over for one in found] == [is_open, False]


def test_stores_tell_what_runs_out_first_and_not_what_is_gone():
    rows = kept_until(view_of(STORE), "2031-05-20")
    assert [(str(row.item.what), row.over) for row in rows if str(row.store.tag) == "S-7"] == [
        ("water", True),
        ("plums", False),
    ]


def test_only_the_owner_reads_what_is_kept_and_everyone_what_must_come_off():
    for reader in ("owner", "technician", "responder"):
        html = body_of(entries(CAP, STORE), reader)
        chapter = html.partition("Left to others, and for a time</h1>")[2].partition("</section>")[
            0
        ]
        assert "TP-1" in chapter
        assert ("plums" in html) is (reader == "owner")
