"""Where another trade may work on one face, how deep, and what is reserved.

Boards are told whole: those open, and those reserved. Among the reserved stand some behind which
there is nothing to hide, chosen by a key that lies in the owner's own part of the record and knows
nothing of what is hidden; so a reserved board points at nothing, and asking again gives the same.
"""

from __future__ import annotations

import hashlib
import hmac
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from record.answers.behind_panel import behind
from record.answers.fixings import fixings
from record.answers.refused import CannotAnswer, not_found
from record.answers.saying import depth, wrapped
from record.fold import Thing
from record.readers import View

ONE_IN = 3  # boards that are reserved for no reason of their own
CLEAR_M = 0.010  # that stays between the drill and the plate, and whatever lies deeper
STOP = (
    "Stop at anything that is not on this pass: another sound, another feel, dust of another "
    "colour, water, a spark, metal. Leave the tool where it is, touch nothing more, and ring."
)
PHOTO = (
    "Before it is closed, take a picture of all that was made, with a rule in view, and hand it "
    "in with this pass."
)


class NoPass(CannotAnswer):
    """No pass can be given; the text says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkPass:
    """
    What a pass allows. ``noted`` says of boards what the trade may know of them, ``unknown`` of
    open ones why nobody can tell what lies behind them.
    """

    hull: str
    face: str
    depth_m: float
    open: tuple[str, ...]
    reserved: tuple[str, ...]
    noted: tuple[str, ...]
    unknown: tuple[str, ...]
    until: str
    for_whom: str
    ring: str
    stop: str = STOP
    photo: str = PHOTO


def work_pass(
    owner: View, trade: View, hull: str, face: str, *, depth_m: float, until: str, for_whom: str
) -> WorkPass:
    """
    Return a pass for one face of a hull, holes no deeper than ``depth_m`` from the room face.

    ``owner`` is the owner's view, of which only a key comes in; what is reserved is what
    ``trade`` has reserved, and boards that the key picks. Raises NotFound, NoPass.
    """
    if not 0 < depth_m < math.inf:
        raise NoPass(f"a hole {depth_m:g} m deep is none")
    if owner.built.thing(hull) is None:
        hulls = [each.tag for each in owner.built.of_kind("hull")]
        raise not_found(hull, f"no hull {hull}", hulls)
    panels = [
        panel
        for panel in trade.built.of_kind("panel")
        if panel.text("hull") == hull and panel.text("face") == face
    ]
    if not panels:
        raise NoPass(f"no panel is recorded on the {face} face of {hull}: nothing there is open")
    key = key_of(owner)
    reserved, noted = [], []
    for panel in panels:
        why = list(_known(trade, panel, depth_m))
        noted += [f"{panel.tag}: {each}" for each in why]
        if why or _reserved(trade, panel) or innocent(key, panel.tag):
            reserved.append(panel.tag)
    opened = tuple(panel.tag for panel in panels if panel.tag not in reserved)
    return WorkPass(
        hull=hull,
        face=face,
        depth_m=depth_m,
        open=opened,
        reserved=tuple(reserved),
        noted=tuple(noted),
        unknown=tuple(_unknown(trade, opened, depth_m)),
        until=until,
        for_whom=for_whom,
        ring=ring_of(trade),
    )


def key_of(owner: View) -> bytes:
    """
    Return a key of the owner's own, the same for as long as the record is kept.

    It is the first entry that says a sheet was posted: only the owner's copy holds its content,
    whose salt nobody can guess, and it says nothing of what was built. Raises NoPass.
    """
    posted = [e for e in owner.built.entries if e.content and e.content.kind == "sheet-posted"]
    if owner.withheld or not posted or not posted[0].content_line:
        raise NoPass("a pass is given from the owner's own record, with all its contents")
    return hashlib.sha256(posted[0].content_line).digest()


def innocent(key: bytes, name: str) -> bool:
    return hmac.digest(key, name.encode(), "sha256")[0] % ONE_IN == 0


def _reserved(trade: View, panel: Thing) -> bool:
    answer = behind(trade, panel.tag)
    return answer.reserved or bool(answer.zones)


def _known(trade: View, panel: Thing, depth_m: float) -> Iterator[str]:
    """Yield why a board is not open, of what the trade may know."""
    answer = behind(trade, panel.tag)
    if answer.not_measured:
        yield f"not recorded: {', '.join(answer.not_measured)}"
        return
    shell = next((layer for layer in answer.layers if layer.side == "shell"), None)
    if shell is None or shell.from_m is None or answer.depth_from != "room face":
        yield "how deep the steel lies is not recorded"
    elif depth_m > shell.from_m - CLEAR_M:
        yield "holes of that depth come too near to the steel"
    tags = [
        item.tag
        for item in answer.items
        if item.depth_may_reach.from_m <= depth_m + CLEAR_M and item.depth_may_reach.to_m > 0
    ]
    if tags:
        yield f"{', '.join(dict.fromkeys(tags))} may lie as near as that"


def _unknown(trade: View, opened: Iterable[str], depth_m: float) -> Iterator[str]:
    """Yield why nobody can tell what lies behind open boards, those of one reason together."""
    boards: dict[str, list[str]] = {}
    for tag in opened:
        for why in fixings(trade, tag, depth_m=depth_m).unknown:
            boards.setdefault(why, []).append(tag)
    yield from (f"{', '.join(tags)}: {why}" for why, tags in boards.items())


def ring_of(view: View) -> str:
    site = view.built.site_thing()
    number = site.text("builder_contact") if site else None
    if site is None or number is None:
        raise NoPass(
            'no number to ring is recorded: state the site\'s "builder contact", then give the pass'
        )
    builder = site.words("builder")
    return number if number.startswith(builder) else f"{builder}, {number}"


def pass_words(given: WorkPass) -> Iterator[str]:
    """Yield a pass in plain lines of at most 100 columns."""
    yield from wrapped(
        f"WORK PASS for {given.for_whom}, hull {given.hull}, {given.face} face", 0, 2
    )
    for line in _said(given):
        yield from wrapped(line)


def _said(given: WorkPass) -> Iterator[str]:
    yield f"Until {given.until}, to the end of that day. Then it is worth nothing."
    yield f"Holes no deeper than {depth(given.depth_m)} from the room face."
    yield f"Open: {', '.join(given.open) or 'none'}"
    yield from (f"UNKNOWN, {line}" for line in given.unknown)
    yield f"Reserved, keep out of all of each board: {', '.join(given.reserved) or 'none'}"
    yield from given.noted
    yield "Open says only that the record reserves nothing there, and never that it is clear."
    yield given.stop
    yield f"Ring: {given.ring}"
    yield given.photo
    yield "It rests on the record alone. What nobody wrote may still be there."
