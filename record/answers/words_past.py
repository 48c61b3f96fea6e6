"""What was done behind a panel and what was photographed, in lines."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.behind_values import Behind, Past, Photo


def past_line(past: Past) -> str:
    moment = f"{past.on} {past.at}" if past.at else past.on
    void = f" {past.void}" if past.void else ""
    return f"{moment} {past.about}: {past.kind}: {past.words} ({past.who}) [{past.entry}]{void}"


def _of_the_room(past: Past, answer: Behind) -> bool:
    """A coat is said of a room, with its part in words: it may not be on this panel."""
    return past.kind == "coat applied" and past.about == answer.room


def done_lines(answer: Behind) -> Iterator[str]:
    """Yield what was done here, but for pictures, and for coats of the whole room."""
    for past in answer.past:
        if past.kind != "photographed" and not _of_the_room(past, answer):
            yield past_line(past)


def coat_lines(answer: Behind) -> Iterator[str]:
    """Yield each coat of the room in one line: which, where, by whom; the rest is in its entry."""
    return (_coat_line(past) for past in answer.past if _of_the_room(past, answer))


def _coat_line(past: Past) -> str:
    said = "; ".join(past.words.split("; ")[:3])
    return f"{past.on} {said} ({past.who}) [{past.entry}]"


def photo_line(photo: Photo) -> str:
    """Return a picture in one line: when, what it shows, where it is kept."""
    moment = f"{photo.on} {photo.at}" if photo.at else photo.on
    said = (("looking", photo.looking), ("scale", photo.scale))
    more = "".join(f"; {name} {words}" for name, words in said if words != "not recorded")
    return (
        f"{moment} {photo.caption}{more}; shows {', '.join(photo.shows)} ({photo.who}) "
        f"[{photo.entry}] {photo.file[:19]}…"
    )
