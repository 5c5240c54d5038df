"""No file, however spoiled, ends in anything but a plan or sentences."""

from __future__ import annotations

import random

import pytest

from seamwright.errors import InputError, Problem
from seamwright.io.plan import builtin_house, read_plan

WORDS = [
    "null", "[]", "{}", "yes", "-1", "0", "1e400", "NaN", "9" * 50, "'", '"', "&a", "*a", "!!int",
    "<<", "- ", ": ", "\t", "# ", "|", ">", "%", "@", "`", "…", "\u2028", "A", "main", "8/0",
    "[[[[", "]]", "{a: b", "mm", "-5'", "side 2", "\x07", "\ud7ff", "east", "close", '1/0"',
]  # fmt: skip


def spoiled(text: str, rng: random.Random) -> str | bytes:
    """Return the text with a few random wounds."""
    for _ in range(rng.randint(1, 5)):
        lines = text.split("\n")
        at, other = rng.randrange(len(text) + 1), rng.randrange(len(text) + 1)
        row = rng.randrange(len(lines))
        wound = rng.randrange(8)
        if wound == 0:
            text = text[:at] + rng.choice(WORDS) + text[at:]
        elif wound == 1:
            text = text[:at] + text[at + rng.randint(1, 40) :]
        elif wound == 2:
            lines[row] = lines[row].split(":")[0] + ": " + rng.choice(WORDS)
            text = "\n".join(lines)
        elif wound == 3:
            lines.insert(row, rng.choice(lines))
            text = "\n".join(lines)
        elif wound == 4:
            del lines[row]
            text = "\n".join(lines)
        elif wound == 5:
            text = text[:at] + text[other : other + 60] + text[at:]
        elif wound == 6:
            lines[row] = " " * rng.randint(0, 6) + lines[row].strip()
            text = "\n".join(lines)
        else:
            text = text[:at] + chr(rng.choice([0, 9, 10, 34, 39, 0x85, 0x3042, 0xFFFD])) + text[at:]
    raw = text.encode("utf-8", "replace")
    cut = rng.randrange(len(raw) + 1)
    return raw[:cut] + bytes([rng.randrange(256)]) + raw[cut:] if rng.random() < 0.1 else text


def read(text: str | bytes) -> tuple[Problem, ...]:
    """Return the problems of a text, none when it is a plan after all."""
    try:
        read_plan(text if isinstance(text, bytes) else text + "\n", name="spoiled.yaml")
    except InputError as error:
        return error.problems
    return ()


@pytest.mark.parametrize("seed", range(4))
def test_wounded_plans_end_in_sentences(seed: int) -> None:
    """Random wounds to a good plan give a plan or problems with sentence and remedy."""
    rng = random.Random(seed)
    good = builtin_house("first_house")
    found = [problem for _ in range(60) for problem in read(spoiled(good, rng))]
    assert len(found) > 30
    assert all(problem.sentence and problem.remedy for problem in found)
    assert all("\n" not in problem.sentence for problem in found)
    assert all(problem.file == "spoiled.yaml" for problem in found)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(40, 60))
def test_many_wounded_plans_end_in_sentences(seed: int) -> None:
    """The same for a large plan and many more wounds."""
    rng = random.Random(seed)
    good = builtin_house("heron_house")
    found = [problem for _ in range(60) for problem in read(spoiled(good, rng))]
    assert len(found) > 30
    assert all(problem.sentence and problem.remedy for problem in found)


def test_random_bytes_end_in_sentences() -> None:
    """Bytes that were never text are refused."""
    rng = random.Random(7)
    for size in (1, 10, 1000, 20_000):
        assert read(rng.randbytes(size))
