"""What keeps a record secret at rest: who is asked for its passphrase, and what lies beside it."""

from __future__ import annotations

from record.secret.vault import KEY, Vault
from record.secret.words import Words, asked, asking

__all__ = ["KEY", "Vault", "Words", "asked", "asking"]
