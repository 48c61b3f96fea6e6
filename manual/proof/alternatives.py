"""Pictures and drawings that say nothing to whoever cannot see them."""

from __future__ import annotations

from collections.abc import Iterator

from manual.proof.finding import Finding
from manual.proof.pages import SVG, Pages


def unsaid(pages: Pages) -> Iterator[Finding]:
    for element in pages.elements("img", f"{SVG}svg"):
        if element.tag == "img":
            said, wants = element.get("alt"), "an alt text"
        else:
            title = element.find(f"{SVG}title")
            said, wants = title.text if title is not None else None, "a title"
        if not (said or "").strip():
            yield Finding(
                rule="alternative text",
                page=pages.page_of(element),
                wrong="a picture that says nothing to whoever cannot see it",
                line=(element.get("src") or element.get("aria-label") or "a drawing")[:60],
                instead=f"give it {wants} that says what it shows",
            )
