"""What goes along with a reader's copy so that it is of use: what is reserved, and no why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.archive.bag import BagFile
from record.entry import Entry, stubs
from record.place import FaceFrame, face_frame
from record.place.modules import SQUARE_M
from record.readers import View
from record.reserved import MOST_M, Reserved, block_name, heads_of, named, path_of, written


def reserving(view: View, entries: Sequence[Entry], signer: str = "") -> Iterator[BagFile]:
    """
    Yield the file of what is reserved in a view of the whole record; none where it is all there.

    ``signer`` is the public key of whoever signs the bag. A record that lacks contents itself
    cannot tell, and gives none: its copies reserve everything.
    """
    lacks = stubs(entries)
    if lacks is None or view.lacking or view.built.as_of is not None:
        return
    modules = view.reserved_modules()
    hulls, squares = modules or (frozenset(), frozenset())
    carried = Reserved(
        reader=view.reader,
        heads=heads_of(entries),
        anywhere=modules is None,
        panels={named(frame): _told(view, frame) for frame in _frames(view)},
        blocks={block_name(tag, box): tag in hulls for tag, box in view.blocks().items()},
        squares=tuple(sorted(squares)),
        side_m=SQUARE_M,
        undone=view.hidden_work(),
        unread=dict(sorted(view.unread.items())),
        signer=signer,
    )
    yield BagFile.of(path_of(lacks), written(carried, lacks))


def _frames(view: View) -> Iterator[FaceFrame]:
    for panel in view.built.of_kind("panel"):
        hull = view.hulls.get(panel.text("hull") or "")
        frame = face_frame(panel, hull) if hull else None
        if frame is not None:
            yield frame


def _told(view: View, frame: FaceFrame) -> str:
    """Return for each whole metre behind a panel 1 where it is reserved, else 0."""
    if not view.reserved(frame, float(MOST_M)):
        return "0" * MOST_M
    return "".join("1" if view.reserved(frame, float(m)) else "0" for m in range(1, MOST_M + 1))
