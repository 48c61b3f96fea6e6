"""Who signed what: keys of this device, signatures over heads, and whether they hold."""

from __future__ import annotations

from record.trust.judge import Covered, Judged, Standing, judge
from record.trust.keys import Key, KeyFault, keys_folder, make_key, read_key, readable_keys
from record.trust.of_bag import OfKey, judged, key_of_bag
from record.trust.signed import Head, message, read_heads, said_heads

__all__ = [
    "Covered",
    "Head",
    "Judged",
    "Key",
    "KeyFault",
    "OfKey",
    "Standing",
    "judge",
    "judged",
    "key_of_bag",
    "keys_folder",
    "make_key",
    "message",
    "read_heads",
    "read_key",
    "readable_keys",
    "said_heads",
]
