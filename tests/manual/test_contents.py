"""The table of contents: every chapter once, each link to a place that is there."""

from manual.asks.marks import CONTENTS
from manual.contents import with_contents
from tests.manual.books import Page


def test_every_first_heading_is_listed_in_order_and_can_be_jumped_to():
    page = Page(with_contents(f"<h1>One</h1>{CONTENTS}<h2>Below</h2><h1>Two &amp; three</h1>"))
    assert [a["href"] for t, a in page.tags if t == "a"] == ["#one", "#two-three"]
    assert [a["id"] for t, a in page.tags if t == "h1"] == ["one", "two-three"]
    assert page.headings == [(1, "One"), (2, "Below"), (1, "Two & three")]


def test_two_chapters_of_one_name_are_two_places():
    body = "<h1>Air</h1><h1>Air</h1><h1>Air</h1>" + CONTENTS
    assert Page(with_contents(body)).all("id") == ["air", "air-2", "air-3"]


def test_a_name_without_a_latin_letter_is_still_a_place():
    page = Page(with_contents(f"<h1>水</h1><h1>—</h1>{CONTENTS}"))
    assert page.all("id") == ["part", "part-2"]
    assert page.all("href") == ["#part", "#part-2"]


def test_the_words_of_the_mark_are_no_mark():
    body = "<p>[[contents]]</p><p>&lt;nav class=&quot;contents&quot;&gt;&lt;/nav&gt;</p>"
    assert with_contents(body) == body


def test_a_name_that_held_mark_up_stays_escaped_in_the_list():
    html = with_contents(f"<h1>a &lt;script&gt; b</h1>{CONTENTS}")
    assert "<script" not in html
    assert Page(html).all("href") == ["#a-script-b"]
