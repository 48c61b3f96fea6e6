"""What was planned for the work came, and what came for it is in it."""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.balance import Account, accounts, planned_tags
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find accounts that are off and are of this covering.

    An account is of it where its item is planned before it or for what it hides, or where more of
    a lot is built in than came and some of it goes under here. What merely waits for later work is
    no business of this covering.
    """
    tags = {*hidden.named, *(thing.tag for thing in hidden.everything())}
    for account in accounts(hidden.view):
        item = hidden.built.thing(account.name)
        item = item if item and item.kind.word == "expected" else None
        said = [*_off(hidden, account, item, tags)]
        if said:
            unsure = hidden.view.withheld or (account.came and account.left is None)
            yield RULE.finding(
                account.name if item else _one_of(account, tags),
                f"{account.what}: {'; '.join(said)}",
                clears=(*_clears(hidden, account, item),),
                entries=account.rests_on or (item.entries() if item else ()),
                sure=CANNOT_BE_TOLD if unsure else CERTAIN,
                stops=False,
            )


def _off(hidden: Hidden, account: Account, item: Thing | None, tags: set[str]) -> Iterator[str]:
    over = account.left is not None and account.left.number < 0
    if item is not None and _wanted(hidden, item, tags) and not account.even:
        if account.says != "adds up":
            yield account.says
        if account.short is not None and account.came:
            yield f"{account.short.words} less came than was planned"
        if account.missing:
            yield f"planned for {', '.join(account.missing)}, not recorded"
    elif over and _one_of(account, tags):
        yield account.says


def _wanted(hidden: Hidden, item: Thing, tags: set[str]) -> bool:
    """Whether it is planned before this covering, or for what it hides."""
    return hidden.covering.tag in item.tags("before") or bool({*planned_tags(item)} & tags)


def _one_of(account: Account, tags: set[str]) -> str:
    """Return the first piece of an account that goes under, or nothing."""
    about = (
        entry.content.about
        for line in account.built_in
        for entry in line.entries
        if entry.content is not None
    )
    return next((tag for tag in about if tag.partition("/")[0] in tags), "")


def _clears(hidden: Hidden, account: Account, item: Thing | None) -> Iterator[str]:
    names = f"- item: {item.tag}" if item else f"- lot: {account.lot}"
    if not account.came or account.short is not None:
        yield from (
            f"## delivered {hidden.built.site}",
            "- what: it is",
            names,
            "- amount: how much",
        )
    if account.missing:
        yield f"or write down {', '.join(account.missing)} as built"
    if account.came and not account.even:
        yield f"what was built in: {names} on each, or ## used; what is over: ## returned"


RULE = Rule(
    word="deliveries balance",
    why=(
        "The valve nobody fitted lies in the van when the trench is filled. What was planned, "
        "came, is built in and is over must add up while it can still be counted by eye."
    ),
    find=find,
)
