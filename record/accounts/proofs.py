"""Which tests still prove something: what passed, what has undone it since, what renewed it.

A test proves something of a thing as it was. Work on the thing afterwards, or on what it is part
of, undoes the proof until the thing is tested again; which work undoes which test stands in
:mod:`record.accounts.voids`. Where a day without an hour does not tell which came first, the
proof is taken to be undone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass

from record.accounts.voids import named, source_of
from record.facts.faults import plain
from record.facts.looks import LOOKS, PROOFS
from record.fold import AsBuilt, Doing, Happening
from record.fold.looks import found, names, surely_before, title
from record.readers import View
from record.words import tell

STANDS, VOID, FAILED, NOT_TOLD = "stands", "void", "failed", "cannot be told"


@dataclass(frozen=True, slots=True)
class Undone:
    """What undid a proof, when, and since when by the rule's source; ``by`` None is withheld."""

    doing: Doing
    source: str

    @property
    def words(self) -> str:
        happening = self.doing.happening
        if happening is None:
            return tell("accounts.work_this_copy_does", moment=self.doing.moment)
        said = happening.words("cause" if "lapsed" in self.doing.what else "what")
        if happening.kind.word == "uncovered":
            said = tell("accounts.uncovered", extent=happening.words("extent"))
        return f"{self.doing.moment}: {said} ({happening.entry.number})"


@dataclass(frozen=True, slots=True)
class Proof:
    """
    The newest passed test of one name on one thing, and whether it still proves anything.

    ``earlier`` are the passed tests before it, each with what had undone it until this one.
    """

    about: str
    test: Happening
    state: str
    undone: tuple[Undone, ...]
    earlier: tuple[tuple[Happening, tuple[Undone, ...]], ...]
    failed: Happening | None = None
    doubt: str = ""

    @property
    def name(self) -> str:
        return title(self.test)

    @property
    def since(self) -> str | None:
        """When it stopped proving anything, at the earliest."""
        return min((one.doing.moment for one in self.undone), default=None)

    @property
    def words(self) -> str:
        match self.state:
            case "void":
                key = "ordered" if self._ordered else "unordered"
                return tell(f"accounts.void.{key}", since=self.since)
            case "failed":
                assert self.failed is not None
                return tell(
                    "accounts.failed", moment=self.failed.moment, number=self.failed.entry.number
                )
            case "cannot be told":
                return tell("accounts.cannot_be_told_2", doubt=self.doubt)
        key = "again" if any(undone for _, undone in self.earlier) else "once"
        return tell(f"accounts.stands.{key}", test=found(self.test))

    @property
    def _ordered(self) -> bool:
        return any(_surely_after(one.doing, self.test) for one in self.undone)


def proofs(view: View, tag: str | Set[str] | None = None) -> tuple[Proof, ...]:
    """
    Return the proofs of a thing, of several or of everything, by thing and in the order first
    passed.
    """
    tags = {tag} if isinstance(tag, str) else tag
    tests = [look for look in _looks(view.built, tags) if _counts(look)]
    of: dict[str, list[Happening]] = {}
    for test in tests:
        of.setdefault(test.about, []).append(test)
    groups: dict[tuple[str, str], list[Happening]] = {}
    for test in tests:
        groups.setdefault(_group(test, of[test.about]), []).append(test)
    done = view.doings()
    found_ = (_proof(view, about, group, done) for (about, _), group in groups.items())
    return tuple(
        proof
        for proof in found_
        if proof is not None and (tags is None or not tags.isdisjoint(_of(proof)))
    )


def _looks(built: AsBuilt, tags: Set[str] | None) -> Iterator[Happening]:
    """Yield every look, or those at the things of which any look concerns one of the tags."""
    if tags is None:
        return built.happened(*LOOKS)
    things = {look.about for look in built.happened_to((tags, LOOKS))}
    return (look for look in built.happened_to((things, LOOKS)) if look.about in things)


def undone_by(view: View, test: Happening, done: Sequence[Doing]) -> tuple[Undone, ...]:
    """Return what undid one test, of ``done``: work on its thing that is not surely older."""
    return tuple(
        Undone(one, source)
        for one in done
        if (source := source_of(view.built, test, one)) and not _surely_before(one, test)
    )


def _counts(look: Happening) -> bool:
    """An inspection is a proof only on a form of its own: "inspected" is a look, not a test."""
    return look.kind.word in PROOFS or look.kind.word in ("weld inspected", "coating inspected")


def _group(test: Happening, tests: Sequence[Happening]) -> tuple[str, str]:
    """
    Return which proof a test is of, among all of its thing: that of the test it names, else its
    own name and thing.
    """
    for other in tests:
        if other is not test and names(test, other):
            return other.about, plain(title(other))
    if not named(test):  # two tests of which nobody knows what they were renew nothing
        return test.about, test.entry.hash
    return test.about, plain(title(test))


def _of(proof: Proof) -> frozenset[str]:
    return proof.test.concerns().union(*(test.concerns() for test, _ in proof.earlier))


def _proof(
    view: View, about: str, group: Sequence[Happening], done: Sequence[Doing]
) -> Proof | None:
    passed = [test for test in group if test.text("result") == "passed"]
    if not passed:
        return None
    *before, last = passed
    undone = undone_by(view, last, done)
    # What also undid the last is not what the last made good again.
    earlier = tuple(
        (test, tuple(one for one in undone_by(view, test, done) if one not in undone))
        for test in before
    )
    bad = [test for test in group if test.text("result") == "failed"]
    failed = next((t for t in bad if not (surely_before(t, last) or names(last, t))), None)
    doubt = _doubt(view, about, last) or _unjudged(group, last)
    state = VOID if undone else FAILED if failed else NOT_TOLD if doubt else STANDS
    return Proof(about, last, state, undone, earlier, failed, doubt)


def _doubt(view: View, about: str, test: Happening) -> str:
    """Return why it cannot be told whether a test stands, or nothing."""
    if view.unread.get(about.partition("/")[0]):
        return tell("accounts.something_said_cannot_be", about=about)
    if view.blind:
        return tell("accounts.lacking_work")
    if test.unsettled():
        return tell(
            "accounts.not_settled", number=test.entry.number, unsettled=", ".join(test.unsettled())
        )
    return ""


def _unjudged(group: Sequence[Happening], last: Happening) -> str:
    """Say of which test since the last that passed nobody knows whether it failed."""
    open_ = (one for one in group if one.text("result") is None and not surely_before(one, last))
    return "".join(
        tell("accounts.result", number=one.entry.number, result=one.words("result"))
        for one in tuple(open_)[:1]
    )


def lapses_alone(view: View) -> tuple[Undone, ...]:
    """Return proofs written down as lapsed of which no passed test is recorded, nor a retest."""
    known = {(one.about, plain(one.name)) for one in proofs(view)}
    tests = [look for look in view.built.happened(*LOOKS) if look.text("result") == "passed"]
    return tuple(
        Undone(one, "written down")
        for one in view.doings()
        if "lapsed" in one.what
        and one.happening is not None
        and (one.happening.about, plain(one.test)) not in known
        and not any(names(test, one.happening) for test in tests)
        and (one.test or not any(about in one.touched for about, _ in known))
    )


def _surely_before(doing: Doing, test: Happening) -> bool:
    if doing.on != test.on:
        return doing.on < test.on
    if doing.at and test.at:
        return doing.at < test.at
    # A retest of this very doing came after it, whatever hours are missing.
    return doing.happening is not None and names(test, doing.happening)


def _surely_after(doing: Doing, test: Happening) -> bool:
    if doing.on != test.on:
        return doing.on > test.on
    return bool(doing.at and test.at and doing.at > test.at)
