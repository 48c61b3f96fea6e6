"""A chapter that asks for what is not there stops, and says where and what it may have meant."""

import pytest

from manual.asks.asked import asked_of
from manual.build import bind
from manual.chapter import Chapter, ChapterFault, chapters, to_html, write
from tests.manual.books import MARK_UP, Page, entries


@pytest.fixture(scope="module")
def asked():
    return asked_of(bind(entries(), "owner"))


def fault(asked, line):
    """Return what is said of a chapter whose third line is ``line``."""
    with pytest.raises(ChapterFault) as caught:
        write(Chapter("55-spoiled.md", f"# Spoiled\n\n{line}\n"), asked)
    return str(caught.value)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("{{ sites.name }}", 'nothing called "sites" to ask for; did you mean "site"?'),
        ("{{ site.buildr }}", 'a site has no field "buildr"; did you mean "builder"?'),
        (
            '{{ record.thing("AIR-INN").name }}',
            'the record has no "AIR-INN"; did you mean "AIR-IN"?',
        ),
        ('{{ record.of("valv") }}', 'there is no kind of fact "valv"; did you mean "valve"?'),
        (
            '{{ record.happened("testd") }}',
            'there is no kind of fact "testd"; did you mean "tested"?',
        ),
        ('{{ record.off("valve") }}', 'a Record has no "off"; did you mean "of"?'),
        ("{{ runs[0].valvs }}", 'a RunTold has no "valvs"; did you mean "valves"?'),
        ("[[draw: long setion AIR-IN]]", 'no drawing "long setion AIR-IN"; did you mean "long s'),
        ("[[draw: long section AIR-INN]]", 'no "AIR-INN" to draw; did you mean "AIR-IN"?'),
        ("{{ edition + reader }}", "it cannot be worked"),
        ("{% for x in %}", "Expected an expression"),
        ("{{ site.name|uper }}", "uper"),
    ],
)
def test_a_chapter_that_asks_wrongly_is_named_with_its_line_and_what_is_near(asked, line, said):
    told = fault(asked, line)
    assert told.startswith("55-spoiled.md:3: ")
    assert said in told


def test_the_line_is_told_though_the_lines_before_it_were_filled_from_the_record(asked):
    before = "{% for run in runs %}\n[[draw: long section {{ run.tag }}]]\n{% endfor %}\n"
    with pytest.raises(ChapterFault, match=r"^9-x\.md:4: "):
        write(Chapter("9-x.md", before + "{{ site.nothing }}\n"), asked)


def test_every_chapter_can_be_written_and_none_prints_its_own_template(asked):
    for each in chapters():
        html = write(each, asked)
        assert "{{" not in html and "{%" not in html, each.name
        assert "[[" not in html, each.name


def test_a_drawing_is_asked_for_once_and_lies_outside_any_paragraph(asked):
    html = write(Chapter("9-x.md", "before\n\n[[draw: site plan]]\n\n## After\n"), asked)
    assert html == '<p>before</p>\n<div data-draw="site plan"></div>\n<h2>After</h2>\n'


TEMPLATES = (
    "Say {{ words }} then.",
    "{{ words }}",
    "# {{ words }}",
    "1. {{ words }}",
    "- {{ words }}",
    "**{{ words }}** it was",
    "| a | b |\n|---|---|\n| {{ words }} | {{ words }} |",
    '<p class="gap">{{ words }}</p>',
    "<div>\n\n{{ words }}\n\n</div>",
)
TYPED = (
    MARK_UP,
    "[[draw: site plan]]",
    "[[contents]]",
    '<div data-draw="site plan"></div>',
    '<nav class="contents"></nav>',
    "# shouted",
    "- listed",
    "1. counted",
    "1) counted",
    "> quoted",
    "***",
    "=====",
    "```",
    "~~~",
    "<!-- gone -->",
    "&lt;b&gt;",
    "{{ site.name }}",
    "{% raw %}",
    "a\n\n# b",
    "a\r\rb",
    "a\\",
    "|",
    "http://example.org",
    '" onload="x',
)


@pytest.mark.parametrize("typed", TYPED)
@pytest.mark.parametrize("template", TEMPLATES)
def test_what_a_crew_typed_is_printed_as_typed_and_is_never_mark_up(asked, template, typed):
    plain = Page(write(Chapter("9-x.md", template + "\n"), {**asked, "words": "plain"}))
    page = Page(write(Chapter("9-x.md", template + "\n"), {**asked, "words": typed}))
    assert page.tags == plain.tags
    flat = " ".join(typed.split())
    assert " ".join(page.text.split()) == " ".join(plain.text.replace("plain", flat).split())


def test_a_value_within_an_attribute_cannot_leave_it(asked):
    html = write(Chapter("9-x.md", '<div id="{{ words }}"></div>\n'), {"words": '"><script>'})
    assert Page(html).tags == [("div", {"id": '"><script>'})]


def test_a_table_without_headings_is_a_list_of_facts_with_its_names_as_headings():
    html = to_html("| | |\n|---|---|\n| Size | 6 in |\n")
    assert '<table class="facts">' in html
    assert '<th scope="row">Size</th>' in html
    assert "<thead>" not in html


def test_headings_with_nothing_under_them_say_so_across_the_whole_table():
    page = Page(to_html("| Room | Use |\n|---|---|\n"))
    assert " ".join(page.text.split()) == "Room Use nothing is recorded in this copy"
    assert [attrs["colspan"] for name, attrs in page.tags if name == "td"] == ["2"]
    full = to_html("| Room | Use |\n|---|---|\n| R-1 | sleeping |\n")
    assert "nothing is recorded" not in full
