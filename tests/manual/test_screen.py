"""The one HTML file on a screen: what leads where, what a key reaches, its only script."""

from __future__ import annotations

import pytest

from manual.build import bind, draw, lay_out, write
from manual.screen import for_screen
from tests.manual.books import Page, entries

PANEL = """
## panel P-1

- hull: A
- face: left
- from near: 1.00 m
- bottom: 46.00 m
- width: 1.20 m
- height: 2.00 m
- fixings: 4 screws
- thickness: 12 mm
- packing thickness: 25 mm
"""
FRAME = """
## fit-out FO-1

- what: bracket
- hull: A
- from near: 1.50 m
- from left: 0.00 m
- bottom: 46.50 m
- along: 0.20 m
- across: 0.03 m
- height: 0.20 m
"""


@pytest.fixture(scope="module")
def html():
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("manual.press.lay_out", lambda html, **_: b"")
        book = bind(entries(PANEL, FRAME), "owner")
        return lay_out(book, draw(book, write(book)))[0].decode()


def test_every_panel_of_a_wall_leads_to_what_is_behind_it(html):
    links = [a["href"] for name, a in Page(html).tags if name == "a" and a.get("class") == "leads"]
    assert links == ["#panel-P-1"] and 'id="panel-P-1"' in html


def test_without_its_script_the_page_is_the_whole_text_and_no_dead_search(html):
    forms = [attrs for name, attrs in Page(html).tags if name == "form"]
    assert len(forms) == 1 and "hidden" in forms[0]
    words = " ".join(Page(html.partition("<script>")[0]).text.split())
    for said in ("Get out", "CV-1", "P-1", "FO-1"):
        assert said in words, said


def test_the_only_script_is_inside_and_the_page_allows_no_other(html):
    scripts = [attrs for name, attrs in Page(html).tags if name == "script"]
    assert scripts == [{}]
    policy = next(a["content"] for n, a in Page(html).tags if n == "meta" and "http-equiv" in a)
    assert policy.startswith("default-src 'none'")
    assert "'unsafe-eval'" not in policy
    assert "script-src 'sha256-" in policy


def test_what_scrolls_is_reached_by_key_and_says_what_it_is():
    table = "<table><thead><tr><th>Tag</th></tr></thead></table>"
    page = for_screen(f'{table}<figure aria-label="a plan">\n<svg><path/></svg></figure>')
    groups = [attrs for _, attrs in Page(page).tags if attrs.get("role") == "group"]
    assert [g["aria-label"] for g in groups] == ["Table: Tag", "Drawing"]
    assert all(g["tabindex"] == "0" for g in groups)
