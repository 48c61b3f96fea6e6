"""What shows that a bag is as somebody packed it: its manifests, and a signature over the second.

The signature is over the bytes of the tag manifest, which holds the hash of the manifest, which
holds the hash of every file. A copy that was made of a signed bag keeps all of this, so that a
file beside its lines can be held against the signature for ever.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass

FORM = 1
PACKED = "packed"  # where a copy keeps it
MANIFEST, TAG_MANIFEST = "manifest-sha256.txt", "tagmanifest-sha256.txt"
KEY, SIGNATURE = "signature/key.pem", "signature/signature.bin"  # in a bag; no manifest lists them


@dataclass(frozen=True, slots=True)
class Proof:
    """The manifests of a signed bag as text, the key that signed in PEM, the signature in hex."""

    manifest: str
    tag_manifest: str
    key: str
    signature: str

    def covers(self, path: str, sha256: str) -> bool:
        """Return whether a file of the bag with that hash is what the signature is over."""
        of_manifest = hashlib.sha256(self.manifest.encode()).hexdigest()
        listed = f"{of_manifest}  {MANIFEST}" in self.tag_manifest.splitlines()
        return listed and f"{sha256}  {path}" in self.manifest.splitlines()

    def written(self) -> bytes:
        form = {"asburied_packed": FORM, **asdict(self)}
        return (json.dumps(form, sort_keys=True, separators=(",", ":")) + "\n").encode("ascii")


def read_proof(data: bytes) -> Proof | None:
    """Return what :meth:`Proof.written` wrote; None where it is no such thing."""
    try:
        form = json.loads(data)
        if form.pop("asburied_packed") != FORM or not all(map(_is_plain, form.values())):
            return None
        return Proof(**form)
    except (ValueError, TypeError, KeyError, AttributeError):
        return None


def _is_plain(value: object) -> bool:
    """Return whether it is text that can be written as bytes."""
    return isinstance(value, str) and value.encode("utf-8", "replace").decode() == value
