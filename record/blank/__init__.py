"""Day sheets to fill in: what is known as hints, what is wanted as gaps; filled in, they post."""

from __future__ import annotations

from record.blank.form import Ask, Block, Form
from record.blank.of_covering import HELP, of_covering
from record.blank.of_kind import NO_FORM, of_kind
from record.blank.write import write

__all__ = ["HELP", "NO_FORM", "Ask", "Block", "Form", "of_covering", "of_kind", "write"]
