"""Tags typed with gloves on: small letters for large ones, where one thing alone can be meant."""

import pytest

from record.cli.asking import spelled
from record.log import Log
from tests.record.answers.shelter import SITE, fit_out, hull, panel
from tests.record.building import day, view_of
from tests.record.records import post_text
from tests.typed import asburied

SHEET = day("2031-05-14", "ld", SITE, hull(), panel(), fit_out())
TWICE = fit_out("fo-2") + "\n\n" + fit_out("Fo-2")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("p-1", "P-1"), ("P-1", "P-1"), ("p-1/2", "P-1/2"), ("p-9", "p-9"), ("", "")],
)
def test_a_tag_in_small_letters_is_the_one_thing_that_has_it_in_others(typed, meant):
    assert spelled(view_of(SHEET), typed) == meant


def test_where_two_things_differ_by_their_letters_alone_neither_is_guessed():
    view = view_of(SHEET, day("2031-05-15", "ld", TWICE))
    assert spelled(view, "FO-2") == "FO-2"
    assert spelled(view, "fo-2") == "fo-2"


def test_what_was_withdrawn_keeps_its_own_spelling():
    gone = day("2031-05-16", "ld", "## withdrawn\n\n- mends: ck-1\n- because: another box")
    view = view_of(SHEET, day("2031-05-15", "ck", fit_out("p-1")), gone)
    assert spelled(view, "p-1") == "p-1"


ASKED = (
    ("behind", "p-1"), ("fixings", "p-1", "--depth", "20 mm"), ("history", "fo-1"),
    ("find", "fo-1"), ("show", "fo-1"), ("beneath", "l-1"), ("landmarks", "l-1"),
    ("beneath", "--from", "l-1 3 m", "--from", "l-2 4 m", "--side", "left"),
)  # fmt: skip


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
def test_a_command_takes_it_too(tmp_path, words):
    marks = (
        f"## landmark L-{n}\n\n- what: post\n- x: {x} m\n- y: 3.00 m" for n, x in ((1, 0), (2, 5))
    )
    with Log.make(tmp_path / "fern-bank") as log:
        sheet = day("2031-05-14", "ld", SITE, hull(), panel(), fit_out(), *marks)
        zone = "- site: fern-bank\n- zone: America/Denver\n"
        post_text(log, sheet.replace("- site: fern-bank\n", zone))
    done = asburied("--record", str(tmp_path / "fern-bank"), *words)
    assert done.returncode == 0, done.stderr
