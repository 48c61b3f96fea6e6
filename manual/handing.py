"""Where the files of an edition are, and putting them where somebody takes them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from manual.issue import Issued
    from record.log import Log


def tell_issued(issued: Issued, places: Sequence[Path | str]) -> None:
    """Print which edition was issued, and where each of its files is."""
    book = issued.built.book
    before = f", supersedes {book.before.number}" if book.before else ""
    print(
        f"Edition {issued.number} ({book.view.reader}), recorded to {book.recorded_to}{before}: "
        f"{issued.entry.number}"
    )
    for name, place in zip(issued.built.hashes(), places, strict=True):
        print(f"  {name:10}{place}")
    print(f"  checkpoint {book.point.hash}")


def kept_at(issued: Issued, log: Log) -> list[str]:
    """Return where the record keeps the files, by their hashes."""
    from manual.build import suffix

    place = log.place
    if log.vault is not None:
        again = "kept encrypted; to read it: manual issue --again --out FOLDER"
        return [again for _ in issued.built.hashes()]
    names = [f"{sha256}{suffix(name)}" for name, sha256 in issued.built.hashes().items()]
    if isinstance(place, Path):
        return [str(place / "editions" / name) for name in names]
    return [f"{place}, editions/{name}" for name in names]


def copied_to(issued: Issued, out: Path) -> tuple[list[Path], str]:
    """Put the files into a folder by their names; return where, or none and what failed."""
    from manual.build import ENDINGS
    from record.log.whole import put_whole

    book, built = issued.built.book, issued.built
    name = f"{book.point.site}-edition-{issued.number}-{book.view.reader}"
    places = [out / f"{name}{ending}" for ending in ENDINGS.values()]
    try:
        out.mkdir(parents=True, exist_ok=True)
        for place, data in zip(places, built.files().values(), strict=True):
            put_whole(place, [data])
    except OSError as fault:
        return [], (
            f"{out}: {fault.strerror or fault}; edition {issued.number} was issued and is kept in "
            "the record, but not every copy of it could be put there"
        )
    return places, ""
