"""What clears a finding before hand-over, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block
from record.checks.finding import Finding
from record.readers import View


def handed_to_somebody(finding: Finding, view: View) -> Iterator[Block]:
    item = view.built.things[finding.about]
    yield Block(kind=item.kind, tag=item.tag, asks=(Ask(key="by whom", hint="who settles it"),))
