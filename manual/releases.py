"""Every covering that went on: by whom it was released before it, or that nobody had."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

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
        entries=", ".join(entry.number for entry in covered.entries()),
    )


def _said(view: View, release: Happening | None, before: bool | None) -> str:
    if release is None:
        if view.withheld:
            return "no release in this copy; ask the owner"
        return "NO RELEASE RECORDED BEFORE IT"
    said = f"{person(release)} and {release.words('second')}, {release.moment}"
    order = "" if before else "; before or after cover is not known"
    return f"{said} ({release.entry.number}){order}"
