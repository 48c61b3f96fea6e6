"""How many entries, in words."""

from __future__ import annotations


def entries_said(count: int) -> str:
    """
    Return a number of entries.

    >>> entries_said(1), entries_said(40)
    ('1 entry', '40 entries')
    """
    return f"{count} {'entry' if count == 1 else 'entries'}"


def withheld_said(count: int) -> str:
    """
    Return how many entries are withheld, as the beginning of a sentence.

    >>> withheld_said(1), withheld_said(2)
    ('1 entry is withheld', '2 entries are withheld')
    """
    return f"{entries_said(count)} {'is' if count == 1 else 'are'} withheld"
