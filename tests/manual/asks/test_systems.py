"""Each system in the order of operation and maintenance manuals; only what is fitted."""

import re

import pytest

from manual.asks.cards import dues_of, task_cards
from manual.asks.emergency import pages
from manual.asks.systems import SYSTEMS, systems
from manual.build import bind
from tests.manual.books import Page, body_of, entries
from tests.record.building import day

CANARY = "quetzalcoatlus"
#: Requirement A6, informed by UFGS 01 78 23: operation, then maintenance, then what goes with it.
IN_ORDER = (
    "Normal working",
    "To start it",
    "To shut it",
    "Afterwards",
    "In an emergency",
    "Operating log",
    "Upkeep",
    "Cleaning",
    "To reach and take off",
    "Spares",
    "Tools",
    "Last tests",
    "Warranty, in use from",
    "Whom to ask",
)
PUMP = "\n## equipment PU-1\n\n- type: pump\n- looks like: blue pump\n- hazard: it starts alone\n"
BALL = """
## run D-1

- carries: condensate

## valve DV-1

- type: ball
- on run: D-1
- turns to close: quarter turn
- closes: clockwise
- looks like: red lever
"""
START = """
## procedure PR-9

- event: start a stay
- sign: you are about to stay
- signal word: warning
- danger: bad air

| step | do | caution | touches |
|---|---|---|---|
| 1 | Start the fan. | keep sleeves off | AU-1 |
| 2 | Count the people. | none | none |
"""


def told(*blocks, reader="owner", sheets=()):
    book = bind(entries(*blocks, sheets=sheets), reader)
    cards = list(task_cards(dues_of(book)))
    return {one.name: one for one in systems(book.view, pages(book.view), cards, lambda tag: ())}


def chapter(*blocks):
    body = body_of(entries(*blocks))
    return re.search(r'<section class="chapter systems">.*?</section>', body, re.DOTALL)[0]


def test_only_a_system_that_is_fitted_stands_there():
    assert set(told()) == {"air"}
    assert set(told(PUMP)) == {"air", "drains"}


def test_its_rows_stand_in_the_order_of_operation_and_maintenance():
    words = Page(chapter()).text
    at = [words.index(row) for row in IN_ORDER]
    assert at == sorted(at)
    assert words.index("Bad air has no smell") < at[0], "the danger before the first step"


def test_what_is_seen_comes_before_what_it_is_called_and_its_tag_last():
    html = chapter()
    assert re.search(
        r"<td>grey drum</td>\n<td>equipment, air unit</td>\n<td>.*?</td>\n<td>AU", html
    )


def test_starting_is_told_by_the_steps_of_the_drill_that_touch_it_with_their_caution_first():
    rows = dict(told(START)["air"].rows)
    assert rows["start"] == ("First: keep sleeves off. Start the fan.",)


def test_shutting_is_told_by_looks_turns_and_tag_where_both_are_known():
    rows = dict(told(BALL)["drains"].rows)
    assert rows["shut"] == ("red lever: turn clockwise, quarter turn (DV-1)",)
    assert dict(told(BALL.replace("- closes: clockwise\n", ""))["drains"].rows)["shut"] == ()


def test_a_row_that_nobody_recorded_is_a_blank():
    html = chapter()
    row = re.search(r'<th scope="row">To start it</th><td>(.*?)</td>', html)[1]
    assert row == 'not recorded <span class="gap"></span>'


def test_a_trouble_leads_to_its_emergency_page():
    body = body_of(entries())
    (led,) = [one for one in told()["air"].troubles if str(one.words) == "the fan is silent"]
    at = re.search(rf'<div class="act" id="{led.to}">', body).start()
    heading = re.findall(r"<h1[^>]*>(.*?)</h1>", body[:at])[-1]
    assert heading == led.at == "Power lost: crank by hand"


def test_a_test_that_failed_is_a_fault_of_its_system():
    failed = "\n## tested AIR-IN\n\n- test: pour\n- result: failed\n- reading: 3.6 l back\n"
    (fault,) = dict(told(failed)["air"].rows)["faults"]
    assert "AIR-IN" in fault and "failed" in fault and "3.6 l back" in fault


@pytest.mark.parametrize("name", SYSTEMS)
def test_each_systems_danger_says_what_how_bad_and_how_to_avoid_it(name):
    from manual.languages import say

    sentences = [s for s in re.split(r"(?<=\.) ", say(f"system.{name}.danger")) if s]
    assert len(sentences) >= 2
    assert say(f"system.{name}.signal") in ("danger", "warning", "caution")


def test_a_way_in_that_a_reader_may_not_see_makes_no_system_in_their_copy():
    hidden = day(
        "2031-05-18",
        "ow",
        f"## concealed entry CE-1\n\n- name: {CANARY}\n- hull: A\n- face: left\n"
        f"- leads to: {CANARY}\n- opens: {CANARY}",
    )
    assert "way_out" in told(sheets=(hidden,))
    assert "way_out" not in told(sheets=(hidden,), reader="technician")
