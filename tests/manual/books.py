"""A small shelter for the manual: one hull, one falling pipe, a store only the owner sees."""

from __future__ import annotations

from html.parser import HTMLParser

from manual.build import bind, draw, write
from tests.record.building import day, entries_of

SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth
- grid: x east, y north
- builder: the crew's office
- emergency number: 911
- people: 4
"""
HULL = """
## hull A

- name: living hull
- inside length: 6.00 m
- inside width: 2.40 m
- inside height: 2.20 m
- steel thickness: 6 mm
- x: 10.00 m
- y: 10.00 m
- floor level: 46.00 m
- bearing: 270°
- how: staff and level
"""
RUN = """
## run AIR-IN

- name: fresh air in
- carries: supply air
- outside diameter: 160 mm
- falls to: hull A
- insulation: none
- screen: not recorded
- freeze protection: n/a, the low end is inside the hull

| station | x | y | level | ground | how |
|---|---|---|---|---|---|
| 1 | 20.00 m | 10.00 m | invert 48.00 m | 49.00 m | staff and level |
| 2 | 10.00 m | 10.00 m | invert 47.80 m | 49.00 m | staff and level |
"""
VALVE = "## valve CV-1\n\n- type: check\n- on run: AIR-IN\n- at station: 2"
EQUIPMENT = "## equipment AU-1\n\n- type: air unit\n- hull: A\n- looks like: grey drum"
DRILL = """
## procedure PR-1

- event: power lost
- sign: the fan is silent
- signal word: warning
- danger: Hard cranking strains the heart.

| step | do | caution | touches |
|---|---|---|---|
| 1 | Turn the crank. | Keep sleeves off it. | AU-1 |
"""
STORE = """
## store S-1

- name: larder under the cot
- hull: A
- from near: 1.00 m
- from left: 1.00 m
- bottom: 46.00 m
- along: 0.50 m
- across: 0.50 m
- height: 0.20 m

| item | what | expires |
|---|---|---|
| 1 | tinned plums | 2031-09-01 |
"""
BUILT = day("2031-05-14", "ld", SITE, HULL, RUN, VALVE, EQUIPMENT, DRILL)
KEPT = day("2031-05-15", "ow", STORE)
MARK_UP = "a|b *c* `d` <script>e</script> [f](g) \\h &amp; _i_ # j"


def entries(*blocks, sheets=()):
    """Return the entries of the small shelter, further blocks of its builder, further sheets."""
    more = (day("2031-05-16", "ld", *blocks),) if blocks else ()
    return entries_of(BUILT, KEPT, *more, *sheets)


def body_of(found, reader="owner"):
    """Return the manual's HTML body, with its drawings, before it is laid out."""
    book = bind(found, reader)
    return draw(book, write(book))


class Page(HTMLParser):
    """An HTML page read back: its words, start tags, ids, links, and headings with their level."""

    def __init__(self, html):
        super().__init__(convert_charrefs=True)
        self.tags, self.text, self.headings, self._open = [], "", [], []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag in ("h1", "h2", "h3", "h4", "h5", "h6"):
            self.headings.append((int(tag[1]), ""))
        self._open.append(tag)

    def handle_endtag(self, tag):
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data):
        if "style" in self._open:
            return
        self.text += data
        if any(tag in self._open for tag in ("h1", "h2", "h3")):
            level, words = self.headings[-1]
            self.headings[-1] = (level, words + data)

    def all(self, name):
        """Return every value of an attribute."""
        return [attrs[name] for _, attrs in self.tags if name in attrs]
