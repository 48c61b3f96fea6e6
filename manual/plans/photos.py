"""Photos in the manual: each is shown once, where it first helps, and named by its entry elsewhere.

What is printed is a small copy of its own: nothing that the camera wrote into the file goes along.
"""

from __future__ import annotations

import base64
import html
import io
import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from markupsafe import Markup

from manual.languages import say, term
from manual.plans.reuse import small
from record.fold import Happening
from record.readers import View

#: The bytes of a photo by its SHA-256, or None where the record does not have the file here.
Kept = Callable[[str], bytes | None]

MOST_PX = 720  # the longer side: 80 mm of paper at 230 dots an inch
QUALITY = 72
_PHOTO = re.compile(r'<img data-photo="([^"]*)" alt="([^"]*)">')
#: Beside what is to be done: small, and left out where the file is not kept here.
SEEN_PX = 480
_SEEN = re.compile(r'(<figure class="seen">)<img data-seen="([^"]*)" (alt="[^"]*">.*?</figure>)')


def none_kept(sha256: str) -> bytes | None:
    """Stand in for the files of a record that has none at hand."""
    return None


class Album:
    """
    The photos that one reader may see, laid out while the chapters are written.

    It knows which were shown already: those are linked to, so that no copy is twice as heavy.
    """

    def __init__(self, view: View) -> None:
        self._every = tuple(view.built.happened("photographed"))
        self._shown: set[str] = set()

    def of(self, tag: str) -> Markup:
        """Return the photos of a thing, by what they say they show."""
        return self._laid(
            [one for one in self._every if tag in one.tags("shows") or one.about == tag]
        )

    def has(self, tag: str) -> bool:
        return any(tag in one.tags("shows") or one.about == tag for one in self._every)

    def on(self, day: str) -> Markup:
        """Return the photos of one day of the work."""
        return self._laid([one for one in self._every if one.on == day])

    def _laid(self, photos: Sequence[Happening]) -> Markup:
        new = [one for one in photos if one.entry.number not in self._shown]
        before = [one for one in photos if one.entry.number in self._shown]
        self._shown.update(one.entry.number for one in new)
        parts = [f'<div class="photos">\n{"".join(map(_figure, new))}</div>'] if new else []
        if before:
            links = ", ".join(map(_link, before))
            parts.append(f"<p>{html.escape(say('photos.shown_elsewhere'))} {links}</p>")
        return Markup("\n" + "\n\n".join(parts) + "\n") if parts else Markup("")


def _figure(one: Happening) -> str:
    said = html.escape(_flat(f"{one.words('caption')} ({', '.join(_numbers(one))})"))
    return (
        f'<figure class="photo" id="{_anchor(one)}"><img data-photo="{html.escape(_sha(one))}" '
        f'alt="{html.escape(_flat(alt(one)))}"><figcaption>{said}</figcaption></figure>\n'
    )


def _link(one: Happening) -> str:
    said = html.escape(say("photos.photo", number=one.entry.number))
    return f'<a class="xref" href="#{_anchor(one)}">{said}</a>'


def alt(one: Happening) -> str:
    """Return what a photo shows in words, for whoever does not see it: all of it as recorded."""
    near = one.text("view")
    said = [
        say("photos.alt", near=term(near) if near else "", caption=one.words("caption")).strip(),
        say("photos.shows", shows=one.words("shows")),
    ]
    if looking := one.text("looking"):
        said.append(say("photos.looking", looking=looking))
    said.append(say("photos.scale", scale=one.words("scale")))
    said.append(say("photos.taken", moment=one.moment))
    return " ".join(said)


def _numbers(one: Happening) -> Iterator[str]:
    yield from dict.fromkeys(entry.number for entry in one.entries())


def _anchor(one: Happening) -> str:
    return f"photo-{one.entry.number}"


def _sha(one: Happening) -> str:
    return one.text("sha256") or ""


def _flat(words: str) -> str:
    """In one line: an empty one would end the figure."""
    return " ".join(words.split())


def put_photos(body: str, kept: Kept) -> str:
    """Return the body with a small copy of each photo in its place, or the words that it is not."""

    def put(found: re.Match[str]) -> str:
        source = _source(kept, found[1], MOST_PX)
        if source is None:
            return f'<span class="gap">{html.escape(say("photos.not_kept_here"))}</span>'
        return f'<img src="{source}" alt="{found[2]}">'

    return _PHOTO.sub(put, put_seen(body, kept))


def put_seen(body: str, kept: Kept) -> str:
    """Return the body with the photos of emergency pages in their places, or without them."""

    def put(found: re.Match[str]) -> str:
        source = _source(kept, found[2], SEEN_PX)
        return f'{found[1]}<img src="{source}" {found[3]}' if source is not None else ""

    return _SEEN.sub(put, body)


def _source(kept: Kept, sha256: str, most_px: int) -> str | None:
    data = kept(html.unescape(sha256))
    copy = small(data, partial(scaled, most_px=most_px), most_px, QUALITY) if data else None
    return f"data:image/jpeg;base64,{base64.b64encode(copy).decode('ascii')}" if copy else None


def scaled(data: bytes, most_px: int = MOST_PX) -> bytes | None:
    """
    Return a photo as a small JPEG of its own, upright, or None if it is no picture.

    Only its points are copied: where and when the camera says it was, its owner and its own small
    picture inside stay behind. The same bytes give the same bytes.
    """
    from PIL import Image, ImageOps

    try:
        with Image.open(io.BytesIO(data)) as photo:
            copy = photo if photo.mode in ("RGB", "L") else photo.convert("RGB")
            copy.thumbnail((most_px, most_px), reducing_gap=1.0)  # a JPEG is read at a part of it
            upright = ImageOps.exif_transpose(copy).convert("RGB")
    except Exception:  # Pillow raises many kinds of error on a damaged file
        return None
    bare = Image.new("RGB", upright.size)
    bare.paste(upright)
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()
