"""The HTML files on a phone and on a desk, as a browser, axe-core and a validator see them."""

from __future__ import annotations

import pytest

from manual.build import bind, draw, lay_out, loose, write
from manual.printing.screen import for_screen
from tests.manual.books import Page, entries
from tests.manual.judges import faults_of_html, looked_at

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
def files(tmp_path_factory):
    """The whole manual, and the emergency pages for a phone."""
    place = tmp_path_factory.mktemp("pages")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("manual.printing.press.lay_out", lambda html, **_: b"")
        book = bind(entries(PANEL, FRAME), "owner")
        found = {"manual": lay_out(book, draw(book, write(book)))[0], "phone": loose(book)[0]}
    for name, data in found.items():
        (place / f"{name}.html").write_bytes(data)
    return {name: place / f"{name}.html" for name in found}


@pytest.fixture(scope="module")
def html(files):
    return files["manual"].read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def seen(files):
    """What a headless browser saw of each, searching the manual for the check valve."""
    return {
        "manual": looked_at(files["manual"], "cv-1 check"),
        "phone": looked_at(files["phone"]),
    }


both = pytest.mark.parametrize("name", ["manual", "phone"])
widths = pytest.mark.parametrize("width", ["420", "1100"])


@both
@widths
def test_axe_core_finds_nothing_on_a_phone_or_a_desk(seen, name, width):
    assert seen[name][width]["violations"] == []
    assert seen[name][width]["rules"] > 20  # it did look


def test_axe_core_does_find_a_fault(html, tmp_path):
    wrong = tmp_path / "wrong.html"
    wrong.write_text(html.replace("<h1", '<img src="data:,"><h1', 1), encoding="utf-8")
    assert any("image-alt" in each for each in looked_at(wrong)["420"]["violations"])


@both
def test_a_validator_of_html_finds_nothing(files, name):
    assert faults_of_html(files[name]) == []


def test_the_validator_does_find_a_fault(html, tmp_path):
    wrong = tmp_path / "wrong.html"
    wrong.write_text(html.replace("<main>", "<main><p><div>x</div></p>"), encoding="utf-8")
    assert faults_of_html(wrong)


def test_an_id_that_is_there_twice_is_a_fault(html, tmp_path):
    twice = tmp_path / "twice.html"
    twice.write_text(html.replace("<main>", '<main><i id="q"></i><i id="q"></i>'), encoding="utf-8")
    assert faults_of_html(twice) == ["id 'q' is there 2 times"]


@both
@widths
def test_the_page_asks_for_nothing_from_outside_and_fits_the_width(seen, name, width):
    assert seen[name][width]["asked"] == []
    assert seen[name][width]["faults"] == []
    assert seen[name][width]["page_width"] == int(width)


@both
def test_every_link_is_reached_by_key_in_its_order_and_seen_to_be(seen, name):
    walk = seen[name]["walk"]
    assert walk["stops"] > 5
    assert walk["reached"] == list(range(min(walk["stops"], 200)))
    assert walk["unseen"] == []


def test_words_are_found_by_key_alone(seen):
    search = seen["manual"]["search"]
    assert search["first"] == "search-words"
    assert "CV-1" in search["link"]
    assert "found" in search["told"]
    assert "CV-1" in search["reached"]
    assert search["nothing"] == "Nothing found."


def test_a_click_on_a_wall_shows_what_is_behind_it(seen):
    wall = seen["manual"]["wall"]
    assert wall["to"] == "#panel-P-1"
    assert "P-1" in wall["behind"]
    assert "FO-1" in wall["behind"]
    assert wall["focused"]


def test_without_scripts_a_browser_shows_the_whole_text_and_no_dead_search(seen):
    plain = seen["manual"]["without_scripts"]
    assert not plain["search_shown"]
    words = " ".join(plain["text"].split())
    for said in ("Get out", "CV-1", "P-1", "Checkpoint", "FO-1"):
        assert said in words, said


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
