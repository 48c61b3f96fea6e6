"""The entry lines, and triggers that refuse to change them.

``links`` and ``contents`` hold the exact bytes that were sealed. A copy that may not show a
content has its link and no row in ``contents``. The other columns are read off the lines, for
looking up; ``received`` alone is local: when this copy took the entry in.

SQLite's INSERT OR REPLACE deletes without asking the DELETE trigger, so a trigger before
INSERT refuses a key that is there.

On PostgreSQL the same is made as ``migrations.office`` has it.

Revision: 0001, the first
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from migrations import office

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

KEYS = {"links": "hash", "contents": "hash"}


def upgrade() -> None:
    if op.get_bind().dialect.name == "postgresql":
        for statement in office.statements():
            op.execute(statement)
        return
    op.create_table(
        "links",
        sa.Column("hash", sa.String(64), primary_key=True),
        sa.Column("site", sa.Text, nullable=False),
        sa.Column("writer", sa.Text, nullable=False),
        sa.Column("seq", sa.Integer, nullable=False),
        sa.Column("content", sa.String(64), nullable=False),
        sa.Column("received", sa.Text, nullable=False),
        sa.Column("line", sa.LargeBinary, nullable=False),
    )
    op.create_index("links_in_order", "links", ["site", "writer", "seq"])
    op.create_table(
        "contents",
        sa.Column("hash", sa.String(64), primary_key=True),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("about", sa.Text, nullable=False),
        sa.Column("line", sa.LargeBinary, nullable=False),
    )
    op.create_index("contents_about", "contents", ["about"])
    for table, key in KEYS.items():
        for change in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{change.lower()} BEFORE {change} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, 'what was recorded is never changed'); END"
            )
        op.execute(
            f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
            f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {key} = NEW.{key}) "
            f"BEGIN SELECT RAISE(ABORT, 'what was recorded is never changed'); END"
        )
