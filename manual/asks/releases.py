"""Every covering that went on: by whom it was released before it, or that nobody had."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manual.languages import say
from record.checks.hidden import bare
from record.checks.moments import person
from record.checks.released import release_of, releases
from record.fold import Happening, Thing
from record.readers import View


@dataclass(frozen=True, slots=True)
class WentOn:
    """One time a covering went on, as a row of the build record."""

    when: str
    covering: str
    what: str
    by: str
    released: str
    entries: str
    let_go: bool  # a sound release surely or perhaps came before


def went_on(view: View) -> Iterator[WentOn]:
    """Yield a row for each time a covering went on, in the order of the work."""
    for covered in view.built.happened("covered"):
        covering = view.built.thing(covered.about)
        if covering is not None:
            yield _row(view, covering, covered)


def _row(view: View, covering: Thing, covered: Happening) -> WentOn:
    release, before = release_of(covered, releases(bare(view, covering)))
    return WentOn(
        when=covered.moment,
        covering=covering.tag,
        what=covering.words("what"),
        by=person(covered),
        released=_said(view, release, before),
        let_go=release is not None,
        entries=", ".join(entry.number for entry in covered.entries()),
    )


def _said(view: View, release: Happening | None, before: bool | None) -> str:
    if release is None:
        if view.withheld:
            return say("releases.no_release_in_this")
        return say("releases.no_release_recorded_before")
    said = say(
        "releases.and",
        release=person(release),
        words=release.words("second"),
        moment=release.moment,
    )
    order = "" if before else say("releases.before_or_after_cover")
    return f"{said} ({release.entry.number}){order}"
