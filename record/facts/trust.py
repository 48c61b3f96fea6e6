"""Who writes and signs, and whose the record is.

Keys and signatures are for every reader: a copy nobody could check would prove nothing. Which
secrets went over to whom points at the secrets: that is the owner's alone.
"""

from __future__ import annotations

from record.facts.fields import Day, Field, Text
from record.facts.kind import EVERYONE, OWNER_ONLY, Kind, Sort

WRITER_KEY = Kind(
    word="writer key",
    says="A writer's key on one device: by its public half their signatures are checked.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("writer", Text(), needed=True),
        Field("public key", Text(), needed=True),
        Field("made", Day(), needed=True),
        Field("role", Text()),
        Field("device", Text()),
    ),
)

KEY_GIVEN_UP = Kind(
    word="key given up",
    says="A key is trusted no more: since when, and why. Signatures from that day do not count.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("writer", Text(), needed=True),
        Field("public key", Text(), needed=True),
        Field("since", Day(), needed=True),
        Field("why", Text(), needed=True),
    ),
)

SIGNED_OFF = Kind(
    word="signed off",
    says="A day signed by one writer, over the heads of the chains named, as they then stood.",
    sort=Sort.HAPPENING,
    readers=EVERYONE,
    tagless=True,
    fields=(
        Field("signer", Text(), needed=True),
        Field("day", Day(), needed=True),
        Field("chains", Text(), needed=True),
        Field("public key", Text(), needed=True),
        Field("signature", Text(), needed=True),
    ),
)

HOLDER_CHANGED = Kind(
    word="holder changed",
    says="The shelter and its record went to another holder, and which secrets went with them.",
    sort=Sort.HAPPENING,
    readers=OWNER_ONLY,
    tagless=True,
    fields=(
        Field("from", Text(), needed=True),
        Field("to", Text(), needed=True),
        Field("day", Day(), needed=True),
        Field("secrets", Text(), needed=True),
    ),
)

KINDS = (WRITER_KEY, KEY_GIVEN_UP, SIGNED_OFF, HOLDER_CHANGED)
