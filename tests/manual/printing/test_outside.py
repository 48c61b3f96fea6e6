"""What a page would fetch or lead to outside itself."""

import pytest

from manual.printing.outside import Reference, references


@pytest.mark.parametrize(
    "inside",
    [
        "<a href='#drains'>d</a>",
        "<img src='data:image/png;base64,AA' alt='x'>",
        "<a href='TEL:112'>112</a> <a href='mailto:a@example.com'>a</a>",
        "<svg xmlns='http://www.w3.org/2000/svg'><use href='#v'/><path fill='url(#grid)'/></svg>",
        "<p>The standard is at https://example.com, in words.</p>",
        "<style>p{background:url(data:image/png;base64,AA)}</style>",
    ],
)
def test_what_stays_in_the_page_is_let_be(inside: str) -> None:
    assert references(inside) == ()


@pytest.mark.parametrize(
    ("html", "place", "target"),
    [
        ("<img src=photo.jpg>", "<img src>", "photo.jpg"),
        ("<IMG SRC=photo.jpg>", "<img src>", "photo.jpg"),
        ("<img srcset='photo.jpg 2x'>", "<img srcset>", "photo.jpg 2x"),
        ("<a href='https://example.com'>", "<a href>", "https://example.com"),
        ("<a href='//example.com'>", "<a href>", "//example.com"),
        ("<a href='log.txt'>", "<a href>", "log.txt"),
        ("<svg><image xlink:href='plan.png'/></svg>", "<image xlink:href>", "plan.png"),
        ("<script>x()</script>", "<script>", "script"),
        ("<link rel=stylesheet href=a.css>", "<link>", "link"),
        ("<iframe src=a.html></iframe>", "<iframe>", "a.html"),
        ("<p style=\"background:url('a.png')\">", "<p style>", "a.png"),
        ("<path fill='url(a.svg#grid)'/>", "<path fill>", "a.svg#grid"),
        ("<style>@import 'a.css';</style>", "<style>", "a.css"),
        ("<style>p{background:URL( a.png )}</style>", "<style>", "a.png "),
        ("<form action='/send'>", "<form action>", "/send"),
    ],
)
def test_what_leads_outside_is_told_by_place_and_name(html: str, place: str, target: str) -> None:
    assert references(html) == (Reference(1, place, target),)


def test_the_line_is_the_one_the_writer_sees() -> None:
    html = "<p>\n</p>\n<style>\np{}\nb{background:url(a.png)}</style>"
    assert [found.line for found in references(html, css="\nb{background:url(b.png)}")] == [5, 2]
