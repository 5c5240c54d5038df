"""Work that takes as long as nobody stops it: for looking at what a page shows meanwhile."""

from __future__ import annotations

import time

from seamwright.app.jobs import Errand, Tell
from seamwright.store.jobs import JobFile


def do(errand: Errand, tell: Tell) -> list[JobFile]:
    """Tell how far it is, tenth by tenth, and end after two minutes at the latest."""
    for tenth in range(1, 1200):
        tell(f"part {tenth} of {errand.kind}", min(0.9, tenth / 10))
        time.sleep(0.1)
    return []
