"""Day sheets in, entries out, without a database: for tests of what the record says.

Sheets are read by the real reader and sealed by the real seal, one chain a writer, each entry
numbered in the order of its sheet, with one "sheet posted" entry last, as posting does.
"""

import hashlib

from record.entry import Content, Replaces, seal
from record.facts import KINDS
from record.facts.values import to_json
from record.readers import look
from record.sheets import read_sheet

SITE = "fern-bank"


def entries_of(*sheets, unseen=None):
    """
    Return the entries of day sheets (whole texts), in the order given.

    ``unseen`` says what a sheet's writer had not seen: {place of the sheet: how many of the
    sheets before it were known}; the writer's own are always known.
    """
    sealed, heads, history = [], {}, []
    for place, text in enumerate(sheets):
        history.append(dict(heads))
        known = history[(unseen or {}).get(place, place)]
        sheet = read_sheet(f"sheet-{place + 1}.md", text.encode())
        recorded = f"{sheet.day}T18:{place % 60:02d}:00Z"
        told = [(draft, _content(sheet, draft, known, sealed)) for draft in sheet.drafts]
        for content in (*(content for _, content in told), _posted(sheet, known)):
            seq, prev = heads.get(sheet.writer, (0, None))
            entry = seal(
                content,
                site=sheet.site,
                writer=sheet.writer,
                seq=seq + 1,
                recorded=recorded,
                prev=prev,
                salt=hashlib.sha256(f"{sheet.writer}-{seq + 1}".encode()).digest()[:16],
            )
            heads[sheet.writer] = (seq + 1, entry.hash)
            sealed.append(entry)
    return tuple(sealed)


def view_of(*sheets, reader="owner", as_of=None, unseen=None):
    """Return what a reader may see of the record that these day sheets make."""
    return look(entries_of(*sheets, unseen=unseen), reader, as_of=as_of)


def day(date, writer, *blocks, part="", site=SITE):
    """Return a day sheet of blocks, each a text that starts with its own "## " heading."""
    head = " ".join(filter(None, ("#", date, writer, part)))
    return "\n\n".join((head, f"- site: {site}", *(block.strip("\n") for block in blocks))) + "\n"


def _content(sheet, draft, known, sealed):
    body = {name: to_json(value) for name, value in draft.body.items()}
    if draft.kind.word == "photographed":
        body["sha256"] = hashlib.sha256(body["file"].encode()).hexdigest()
    fields = () if draft.kind.word == "withdrawn" else tuple(body)
    readers = draft.kind.readers & set(draft.readers or draft.kind.readers)
    return Content(
        kind=draft.kind.stored,
        version=draft.kind.version,
        about=draft.about,
        on=sheet.day,
        at=draft.at,
        zone=sheet.zone,
        did=draft.did,
        saw=draft.saw,
        by=draft.by,
        readers=tuple(sorted(readers | {"owner"})),
        seen={writer: head for writer, (_, head) in known.items() if writer != sheet.writer},
        body=body,
        replaces=tuple(Replaces(*_target(sealed, number), fields) for number in draft.mends),
        because=draft.because,
    )


def _target(sealed, number):
    return next((entry.hash, number) for entry in sealed if entry.number == number)


def _posted(sheet, known):
    kind = KINDS["sheet posted"]
    return Content(
        kind=kind.stored,
        version=kind.version,
        about=sheet.site,
        on=sheet.day,
        seen={writer: head for writer, (_, head) in known.items() if writer != sheet.writer},
        body={"name": sheet.text.name, "sha256": hashlib.sha256(sheet.text.data).hexdigest()},
    )
