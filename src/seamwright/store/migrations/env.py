"""Where alembic starts: it works on the connection it is handed, in one transaction."""

from __future__ import annotations

from alembic import context

from seamwright.store.schema import META

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=META, transactional_ddl=True)
with context.begin_transaction():
    context.run_migrations()
