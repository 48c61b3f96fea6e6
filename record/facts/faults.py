"""What is said where the words for a value cannot be read."""

from __future__ import annotations


class ValueFault(ValueError):
    """A value that cannot be read: what is wrong, what to write, and where in the text."""

    def __init__(self, problem: str, remedy: str, start: int = 0, end: int | None = None) -> None:
        super().__init__(problem)
        self.problem, self.remedy, self.start, self.end = problem, remedy, start, end


def with_article(word: str) -> str:
    """
    Return a kind's word as it stands in a sentence.

    >>> [with_article(word) for word in ("equipment", "uncovered", "used", "hull")]
    ['an equipment', 'an uncovered', 'a used', 'a hull']
    """
    return f"{'an' if word[:1] in 'aeio' or word.startswith('un') else 'a'} {word}"


def plain(text: str) -> str:
    """Return words for reading: small letters, and every run of spaces one plain space."""
    return " ".join(text.split()).casefold()
