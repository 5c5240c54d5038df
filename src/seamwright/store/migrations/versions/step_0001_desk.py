"""Houses, revisions, drafts, results, jobs, signatures, records and settings."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

APPEND_ONLY = ("signature", "record")
"""Tables in which no row is ever changed or taken out."""


def upgrade() -> None:
    """Make the tables."""
    _house_tables()
    _job_tables()
    _site_tables()
    op.create_table(
        "setting",
        sa.Column("key", sa.Text, primary_key=True),
        sa.Column("value", sa.Text, nullable=False),
    )
    if op.get_bind().dialect.name == "sqlite":
        for table in APPEND_ONLY:
            for word in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER keep_{table}_{word.lower()} BEFORE {word} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, '{table} rows are only ever added'); END"
                )


def downgrade() -> None:
    """Take the tables out again, with everything in them."""
    for table in ("setting", "record", "signature", "job_file", "job", "result", "draft"):
        op.drop_table(table)
    op.drop_table("revision")
    op.drop_table("house")


def _house_tables() -> None:
    op.create_table(
        "house",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("head", sa.Integer, nullable=False),
        sa.Column("made_at", sa.Text, nullable=False),
        sa.Column("changed_at", sa.Text, nullable=False),
        sa.Column("removed_at", sa.Text),
    )
    op.create_table(
        "revision",
        sa.Column("house_id", sa.Text, sa.ForeignKey("house.id"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("parent", sa.Integer),
        sa.Column("next", sa.Integer),
        *(_text(name) for name in ("plan_hash", "plan_text")),
        sa.Column("form", sa.Text),
        *(_text(name) for name in ("origin", "origin_name", "author", "note", "made_at")),
    )
    op.create_table(
        "draft",
        sa.Column("house_id", sa.Text, sa.ForeignKey("house.id"), primary_key=True),
        sa.Column("base", sa.Integer, nullable=False),
        *(_text(name) for name in ("source", "saved_at")),
    )
    op.create_table(
        "result",
        *(sa.Column(name, sa.Text, primary_key=True) for name in ("plan_hash", "kind", "version")),
        sa.Column("body", sa.LargeBinary, nullable=False),
    )


def _job_tables() -> None:
    op.create_table(
        "job",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("house_id", sa.Text, sa.ForeignKey("house.id"), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        *(_text(name) for name in ("kind", "wishes", "state", "phase")),
        sa.Column("progress", sa.Float, nullable=False),
        *(_text(name) for name in ("problems", "made_at")),
        sa.Column("started_at", sa.Text),
        sa.Column("ended_at", sa.Text),
        sa.Column("cancel", sa.Integer, nullable=False),
    )
    op.create_index("ix_job_house_id", "job", ["house_id"])
    op.create_index("ix_job_state", "job", ["state"])
    op.create_table(
        "job_file",
        sa.Column("job_id", sa.Text, sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("name", sa.Text, primary_key=True),
        sa.Column("media_type", sa.Text, nullable=False),
        sa.Column("body", sa.LargeBinary, nullable=False),
    )


def _site_tables() -> None:
    op.create_table(
        "signature",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("house_id", sa.Text, sa.ForeignKey("house.id"), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        *(
            _text(name)
            for name in (
                *("action", "face", "kinds", "joints", "signed_by", "role"),
                *("date", "note", "reason", "undone", "made_at"),
            )
        ),
    )
    op.create_index("ix_signature_house_id", "signature", ["house_id"])
    op.create_table(
        "record",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("house_id", sa.Text, sa.ForeignKey("house.id"), nullable=False),
        *(_text(name) for name in ("key", "joint", "what", "person", "note", "done_at", "made_at")),
        sa.UniqueConstraint("house_id", "key"),
    )
    op.create_index("ix_record_house_id", "record", ["house_id"])


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=False)
