"""A write that was acknowledged is there after the program is killed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from seamwright.store.houses import list_houses
from seamwright.store.open import is_sound, open_store
from seamwright.store.records import list_records

WRITER = """
import sys
from pathlib import Path
from seamwright.store.houses import add_house
from seamwright.store.open import open_store
from seamwright.store.records import add_record
from seamwright.store.revisions import NewRevision
store = open_store(Path(sys.argv[1]))
house = add_house(store, "Aspen", NewRevision(plan_text="one", origin="yaml"))
for number in range(100000):
    add_record(store, house.id, key=f"key-{number}", joint="A.1-A.2", what="sealed",
               person="Kim", note="", done_at=None)
    print(number, flush=True)
"""
"""Writes records as fast as it can, and says each number once it was acknowledged."""


def test_acknowledged_records_survive_a_kill(tmp_path: Path) -> None:
    """Killed in the middle of writing, the store is whole and holds all that was acknowledged."""
    command = [sys.executable, "-c", WRITER, str(tmp_path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        said = [int(next(writer.stdout)) for _ in range(40)]
        writer.kill()
        said += [int(line) for line in writer.stdout if line.strip()]
    store = open_store(tmp_path)
    (house,) = list_houses(store)
    kept = {row.key for row in list_records(store, house.id)}
    assert is_sound(store)
    assert {f"key-{number}" for number in said} <= kept
    assert len(kept) - len(said) <= 1
    store.close()
