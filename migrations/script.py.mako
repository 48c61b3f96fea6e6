"""${message}

What is recorded is never changed. A migration adds tables, columns and indexes beside the
entry lines; it never touches ``links.line`` or ``contents.line``, and never lifts a trigger.

Revision: ${up_revision}, after ${down_revision}
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    ${upgrades if upgrades else "pass"}
