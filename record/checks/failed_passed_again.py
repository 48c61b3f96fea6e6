"""What failed an inspection or a test passed it again."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import when
from record.facts.looks import LOOKS, titled
from record.fold import Happening
from record.fold.looks import found, names, of_weld, title


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find failures that no retest names and no release followed.

    A weld's failures are the weld rule's. A release of the same thing, by a lead and a second
    person, settles a hold such as steel too near the dew point. What failed after this covering
    hid the thing is not against the covering.
    """
    for thing in hidden.everything():
        looks = list(hidden.built.about(thing.tag, *LOOKS))
        passed = [look for look in looks if look.text("result") == "passed"]
        for look in looks:
            if hidden.after_cover(thing.tag, look):
                continue
            result = look.text("result")
            if result is None:
                yield _open(thing.tag, look, f"its result is {look.words('result')}", sure=False)
            elif (
                result == "failed"
                and not _left_to_weld(thing.kind.word, look)
                and not any(names(one, look) for one in passed)
                and not _released(hidden, thing.tag, look)
            ):
                said = f"failed {look.moment} ({found(look)})"
                yield _open(thing.tag, look, f"{said}, and did not pass since", sure=True)


def _left_to_weld(kind: str, look: Happening) -> bool:
    return kind == "seam" and of_weld(look)


def _released(hidden: Hidden, tag: str, look: Happening) -> bool:
    return any(
        release.text("second") is not None and when(look).by(when(release))
        for release in hidden.built.about(tag, "hold released")
    )


def _open(tag: str, look: Happening, said: str, *, sure: bool) -> Finding:
    field = titled(look.kind.word)
    return RULE.finding(
        tag,
        f"{title(look)}: {said}",
        clears=(
            f"## {look.kind.word} {tag}",
            f"- {field}: {title(look)}",
            "- result: passed",
            f"- retest of: {look.entry.number}",
        ),
        entries=look.entries(),
        sure=CERTAIN if sure else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="what failed passed again",
    why=(
        "A fault that was found and not shown to be put right is still there, as far as anyone "
        "can tell later. The retest names the failure, so that the two are never read apart."
    ),
    find=find,
)
