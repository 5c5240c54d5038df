"""Work for the tests of work: quick, slow, refused, broken."""

from __future__ import annotations

import json
import os
import tempfile
import time
from pathlib import Path

from seamwright.app.jobs import Errand, Tell
from seamwright.errors import InputError, Problem
from seamwright.store.jobs import JobFile


def nap(errand: Errand, tell: Tell) -> list[JobFile]:
    """Return at once."""
    tell("napping", 0.5)
    return [
        JobFile(name="result.json", media_type="application/json", body=errand.wishes.encode()),
        JobFile(name="page.html", media_type="text/html", body=b"<script>1</script>"),
    ]


def dry(errand: Errand, tell: Tell) -> list[JobFile]:
    """Return as its result what came along as weather."""
    tell("dry", 0.5)
    body = str(json.loads(errand.wishes)["weather"]).encode()
    return [JobFile(name="result.json", media_type="application/json", body=body)]


def sleep(errand: Errand, tell: Tell) -> list[JobFile]:
    """Tell how far it is, for a minute, with a half-written file left lying."""
    Path(tempfile.mkdtemp(prefix="seamwright-"), "half.pdf").write_text("half")
    for second in range(600):
        tell(f"asleep {errand.kind}", second / 600)
        time.sleep(0.1)
    return []


def refuse(errand: Errand, tell: Tell) -> list[JobFile]:
    """Refuse the errand."""
    tell("about to refuse", 0.0)
    raise InputError([Problem(subject=errand.kind, sentence="no", remedy="ask another")])


def stumble(errand: Errand, tell: Tell) -> list[JobFile]:
    """Fail by a fault of its own."""
    tell(errand.kind, 0.0)
    raise ZeroDivisionError("by hand")


def vanish(errand: Errand, tell: Tell) -> list[JobFile]:
    """End the process without a word."""
    tell(errand.kind, 0.0)
    os._exit(3)
