"""Files inside the PDF, and what is put right in it before it is written."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from manual.printing.pdf_structure import mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Attached:
    """A file inside the PDF: its name, media type and bytes, what it is, and what to the manual.

    ``relationship`` is one of ISO 32000-2, 7.11.3: Source, Data, Supplement.
    """

    name: str
    media_type: str
    data: bytes
    said: str
    relationship: str


def attachment(file: Attached, stamp: datetime) -> Any:
    """Return the file as WeasyPrint takes it, dated by ``stamp``."""
    from weasyprint import Attachment  # type: ignore[import-untyped]

    day = stamp.astimezone(UTC)
    return Attachment(
        file_obj=io.BytesIO(file.data),
        name=file.name,
        description=file.said,
        created=day,
        modified=day,
        relationship=file.relationship,
    )


def finished(document: Any, pdf: Any, *, attached: Sequence[Attached]) -> None:
    """Put a pydyf file right; WeasyPrint calls this when all else is in it."""
    mend(pdf)
    types = {file.name: file.media_type for file in attached}
    for each in pdf.objects:
        if isinstance(each, dict) and each.get("Type") == "/Filespec":
            # The machine's own list of media types does not go into the file.
            stream = pdf.objects[int(each["EF"]["F"].split()[0])]
            name = types[each["UF"].string]
            stream.extra["Subtype"] = "/" + name.replace("/", "#2f")
    if "AF" in pdf.catalog:
        pdf.catalog["AF"][:] = dict.fromkeys(pdf.catalog["AF"])  # each is named twice
