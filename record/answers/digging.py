"""What is done before any digging, and how near to a recorded line a machine may come."""

from __future__ import annotations

from collections.abc import Iterator

from record.fold import Thing

HAND_NOT_KNOWN_M = 0.61  # 24 in, where no legal tolerance is recorded; common practice, no source
LOCATE = (
    "Have the local locating service mark first; it marks public lines only and gives no depth."
)


def before_digging(site: Thing | None) -> Iterator[str]:
    """Yield what is done before any digging; nothing here says that a place is clear."""
    number = site.text("one-call_number") if site else None
    yield f"{LOCATE} Ring {number}." if number else LOCATE
    tolerance = site.quantity("dig_tolerance") if site else None
    if site is not None and tolerance is not None:
        yield (
            f"Within {tolerance.text} of any mark or recorded line, either side, by hand only "
            f"({site.words('dig_tolerance_from')}); where this answer's own circle is wider, that."
        )
    else:
        yield (
            "How near to a mark a machine may come is not recorded here: ask the locating service."
        )
    yield "Other things may lie in the way, on record or not. Probe gently, dig by hand."


def legal_m(site: Thing | None) -> float | None:
    """Return the legal tolerance either side of a mark, as recorded for the site."""
    tolerance = site.quantity("dig_tolerance") if site else None
    return None if tolerance is None else float(tolerance.si)
