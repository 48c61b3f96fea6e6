"""Links that lead nowhere, and names of places that stand for two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from urllib.parse import unquote

from manual.proof.finding import Finding
from manual.proof.pages import Pages, text_of

_OUT = ("mailto:", "tel:")


def dead(pages: Pages) -> Iterator[Finding]:
    """Yield each link to a place that is not in the manual, and each link out of it."""
    places = {element.get("id") for element in pages.root.iter() if element.get("id")}
    for element in pages.root.iter():
        target = _target(element)
        if target is None or target.startswith(_OUT):
            continue
        if not target.startswith("#"):
            wrong, instead = "leads out of the manual", "name it in words"
        elif unquote(target[1:]) not in places:
            wrong, instead = "leads to a place that is not there", "mend the link or mark the place"
        else:
            continue
        line = f"{text_of(element)} ({target})"
        yield Finding(
            rule="link", page=pages.page_of(element), wrong=wrong, line=line, instead=instead
        )


def _target(element: object) -> str | None:
    get = element.get  # type: ignore[attr-defined]
    if get("href") is not None:
        return str(get("href"))
    return f"#{get('data-to')}" if get("data-to") else None


def twice(pages: Pages) -> Iterator[Finding]:
    """Yield each name that more than one place has: a link goes to the first of them only."""
    named = [element for element in pages.root.iter() if element.get("id")]
    count = Counter(element.get("id") for element in named)
    for name, number in count.items():
        if number > 1:
            second = [element for element in named if element.get("id") == name][1]
            yield Finding(
                rule="link",
                page=pages.page_of(second),
                wrong=f"{number} places have one name, and a link leads to the first",
                line=name,
                instead="give each a name of its own",
            )
