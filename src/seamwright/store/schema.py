"""The tables, as the code sees them; the migrations make them."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    Float,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

META = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "ix": "ix_%(table_name)s_%(column_0_name)s",
    }
)

HOUSE = Table(
    "house",
    META,
    Column("id", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("head", Integer, nullable=False),
    Column("made_at", Text, nullable=False),
    Column("changed_at", Text, nullable=False),
    Column("removed_at", Text),
)
"""A house; `head` is the number of the revision that counts."""

REVISION = Table(
    "revision",
    META,
    Column("house_id", Text, ForeignKey("house.id"), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("parent", Integer),
    Column("next", Integer),
    Column("plan_hash", Text, nullable=False),
    Column("plan_text", Text, nullable=False),
    Column("form", Text),
    Column("origin", Text, nullable=False),
    Column("origin_name", Text, nullable=False),
    Column("author", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("made_at", Text, nullable=False),
)
"""Every plan text a house ever had. `next` is where redo leads."""

DRAFT = Table(
    "draft",
    META,
    Column("house_id", Text, ForeignKey("house.id"), primary_key=True),
    Column("base", Integer, nullable=False),
    Column("source", Text, nullable=False),
    Column("saved_at", Text, nullable=False),
)
"""What somebody is writing, saved as they type; one to a house, and it may be wrong."""

RESULT = Table(
    "result",
    META,
    Column("plan_hash", Text, primary_key=True),
    Column("kind", Text, primary_key=True),
    Column("version", Text, primary_key=True),
    Column("body", LargeBinary, nullable=False),
)
"""Documents worked out from a plan text, compressed; they can be made again at any time."""

JOB = Table(
    "job",
    META,
    Column("id", Text, primary_key=True),
    Column("house_id", Text, ForeignKey("house.id"), nullable=False, index=True),
    Column("revision", Integer, nullable=False),
    Column("kind", Text, nullable=False),
    Column("wishes", Text, nullable=False),
    Column("state", Text, nullable=False, index=True),
    Column("phase", Text, nullable=False),
    Column("progress", Float, nullable=False),
    Column("problems", Text, nullable=False),
    Column("made_at", Text, nullable=False),
    Column("started_at", Text),
    Column("ended_at", Text),
    Column("cancel", Integer, nullable=False),
)
"""Long work that was asked for, and how far it is."""

JOB_FILE = Table(
    "job_file",
    META,
    Column("job_id", Text, ForeignKey("job.id"), primary_key=True),
    Column("name", Text, primary_key=True),
    Column("media_type", Text, nullable=False),
    Column("body", LargeBinary, nullable=False),
)
"""What long work brought back."""

SIGNATURE = Table(
    "signature",
    META,
    Column("id", Integer, primary_key=True),
    Column("house_id", Text, ForeignKey("house.id"), nullable=False, index=True),
    Column("revision", Integer, nullable=False),
    Column("action", Text, nullable=False),
    Column("face", Text, nullable=False),
    Column("kinds", Text, nullable=False),
    Column("joints", Text, nullable=False),
    Column("signed_by", Text, nullable=False),
    Column("role", Text, nullable=False),
    Column("date", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("reason", Text, nullable=False),
    Column("undone", Text, nullable=False),
    Column("made_at", Text, nullable=False),
)
"""Who signed which side and when, and what a change of it undid; rows are only ever added."""

RECORD = Table(
    "record",
    META,
    Column("id", Integer, primary_key=True),
    Column("house_id", Text, ForeignKey("house.id"), nullable=False, index=True),
    Column("key", Text, nullable=False),
    Column("joint", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("person", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("done_at", Text, nullable=False),
    Column("made_at", Text, nullable=False),
    UniqueConstraint("house_id", "key"),
)
"""What was done on site; rows are only ever added. `key` makes sending one twice harmless."""

SETTING = Table(
    "setting",
    META,
    Column("key", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
"""How the desk shows things: units, language, paper."""
