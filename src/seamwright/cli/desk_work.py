"""The long work the desk can be asked for: each kind is a command, run as the user would run it.

So a page can never say anything that the command line does not. What the command prints as JSON is
the result; what it writes into its folder comes along; what it says on a terminal while it runs is
what the page shows meanwhile.
"""

from __future__ import annotations

import io
import json
import mimetypes
import re
import zipfile
from collections.abc import Callable, Mapping
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import click

from seamwright.app.jobs import Errand, JobKind, Tell
from seamwright.app.site_file import stands_alone
from seamwright.cli.main import COMMANDS, load
from seamwright.errors import InputError, Problem
from seamwright.store.jobs import JobFile

PLAN, OUT = "plan.yaml", "out"

_STAGE = re.compile(r"(\d+) of (\d+): (.+)")
_COUNT = re.compile(r"(\d+) of (?:about )?(\d+)\b")

MOST_FILES = 12
"""Files brought back one by one; more come as one archive. Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Manner:
    """How a command is asked for its result: its options by wish, and those of the desk."""

    title: str
    options: Mapping[str, str]
    takes_out: bool
    takes_json: bool = True
    own: tuple[str, ...] = ("units",)
    files: Mapping[str, tuple[str, str]] | None = None


WEATHER = {"weather": ("--weather", "")}
RECORDS = {"records": ("--records", "records.yaml")}

MANNERS: Mapping[str, Manner] = {
    "days": Manner(
        title="Plan the days",
        options={"start": "--start", "crews": "--crews", "rain": "--rain", "limit_s": "--limit",
                 "no_crane": "--no-crane", "rain_cost": "--rain-cost"},
        takes_out=True, own=("units", "paper"), files=WEATHER,
    ),
    "dryness": Manner(
        title="See whether every joint stays dry",
        options={"seed": "--seed", "joint": "--joint", "face": "--face", "years": "--years"},
        takes_out=True, files=WEATHER,
    ),
    "forecast": Manner(
        title="Forecast the fan test",
        options={"workmanship": "--workmanship", "target": "--target", "seed": "--seed"},
        takes_out=False, files=WEATHER,
    ),
    "fan": Manner(
        title="Work out a fan test", options={"target": "--target", "standard": "--standard"},
        takes_out=True, own=("units", "paper"),
    ),
    "hunt": Manner(
        title="Say where to look for the leak", takes_out=True, own=("units", "paper"),
        options={"by": "--by", "aim": "--aim", "top": "--top"}, files=RECORDS,
    ),
    "report": Manner(
        title="Print the packet", options={}, takes_out=True, takes_json=False,
        own=("units", "paper"),
    ),
}  # fmt: skip
"""Every kind of long work, in the order of the job."""

KINDS = tuple(
    JobKind(name=name, title=manner.title, work="seamwright.cli.desk_work:do")
    for name, manner in MANNERS.items()
    if name in COMMANDS
)
"""The kinds whose command is there."""


def do(errand: Errand, tell: Tell) -> list[JobFile]:
    """Run the command of an errand in a folder of its own and return what it made.

    Raises
    ------
    InputError
        With what the command refused.
    """
    manner, wishes = MANNERS[errand.kind], json.loads(errand.wishes)
    with TemporaryDirectory(prefix="seamwright-") as name, chdir(name):
        folder = Path(name)
        (folder / PLAN).write_text(errand.plan_text, encoding="utf-8")
        words = [*_first(errand.kind, wishes, folder), *_words(manner, wishes, folder)]
        wanted = {**errand.settings, **{k: wishes[k] for k in manner.own if wishes.get(k)}}
        words += [f"--{key}={wanted[key]}" for key in manner.own if key in wanted]
        words += ["--json"] if manner.takes_json else []
        words += [f"--out={OUT}"] if manner.takes_out else []
        tell("begins", 0.0)
        said = _run(errand.kind, words, _Listener(tell, float(wishes.get("limit_s", 30.0))))
        files = _brought(folder / OUT)
    if manner.takes_json:
        files = [f for f in files if f.name != "result.json"]
        files.append(JobFile(name="result.json", media_type="application/json", body=said))
    return files


def _first(kind: str, wishes: Mapping[str, Any], folder: Path) -> list[str]:
    """Return the first words: the plan, or for a fan test the readings and then the plan."""
    if kind != "fan":
        return [PLAN]
    readings = wishes.get("readings")
    if readings is None:
        problem = Problem(subject="readings", sentence="there are no readings to work out",
                          remedy="choose the file of the test")  # fmt: skip
        raise InputError([problem])
    (folder / "readings.csv").write_text(readings, encoding="utf-8")
    return ["readings.csv", f"--plan={PLAN}"]


def _words(manner: Manner, wishes: Mapping[str, Any], folder: Path) -> list[str]:
    words = []
    for key, option in manner.options.items():
        value = wishes.get(key)
        values = value if isinstance(value, list) else [value]
        words += [f"{option}={one}" for one in values if one is not None]
    for key, (option, name) in (manner.files or {}).items():
        text = wishes.get(key)
        if text is not None:
            if key == "records":
                stands_alone(text, name)
            path = folder / (name or str(wishes.get("weather_name", "weather.csv")))
            path.write_text(text, encoding="utf-8")
            words.append(f"{option}={path.name}")
    return words


def _run(kind: str, words: list[str], listener: _Listener) -> bytes:
    """Run a command and return what it printed; what it refuses comes as problems."""
    said = io.StringIO()
    command = load(kind)
    with redirect_stdout(said), redirect_stderr(listener):
        try:
            command.main(args=words, prog_name=kind, standalone_mode=False)
        except click.exceptions.Exit:
            pass
        except click.ClickException as error:
            problem = Problem(subject=kind, sentence=error.format_message(),
                              remedy="correct what was asked for")  # fmt: skip
            raise InputError([problem]) from None
    return said.getvalue().encode()


class _Listener(io.TextIOBase):
    """A terminal to the command: what it says while it runs is told on."""

    def __init__(self, tell: Callable[[str, float], None], limit: float) -> None:
        super().__init__()
        self._tell, self._limit = tell, limit

    def isatty(self) -> bool:
        """Return True: commands tell how far they are only on a terminal."""
        return True

    def writable(self) -> bool:
        """Return True."""
        return True

    def write(self, text: str) -> int:
        """Tell on what the command says, and how far that is."""
        words = text.strip()
        if words:
            self._tell(*how_far(words, self._limit))
        return len(text)


def how_far(words: str, limit: float) -> tuple[str, float]:
    """Return the phase and the progress from 0 to 1 that a line of a command tells.

    Commands tell seconds of their limit (``12 s  ...``), a stage (``2 of 4: ...``) or a count
    (``30 of about 120 runs``); of anything else only the words are known.
    """
    stage = _STAGE.fullmatch(words)
    if stage is not None:
        begun = (int(stage[1]) - 1) / int(stage[2])
        return stage[3], min(max(begun, 0.01), 0.99)
    count = _COUNT.match(words)
    if count is not None:
        return words, min(int(count[1]) / max(int(count[2]), 1), 0.99)
    seconds, _, rest = words.partition(" s ")
    if seconds.strip().isdecimal():
        return rest.strip(), min(float(seconds) / limit, 0.99)
    return words, 0.0


def _brought(folder: Path) -> list[JobFile]:
    """Return the files of a folder; many come as one archive beside the PDF and data on top."""
    paths = sorted(p for p in folder.rglob("*") if p.is_file()) if folder.is_dir() else []
    tops = [p for p in paths if p.parent == folder]
    files = [
        JobFile(name=p.name, media_type=_media(p), body=p.read_bytes()) for p in tops[:MOST_FILES]
    ]
    if len(paths) > len(tops[:MOST_FILES]):
        held = io.BytesIO()
        with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in paths:
                archive.write(path, path.relative_to(folder))
        files.append(
            JobFile(name="everything.zip", media_type="application/zip", body=held.getvalue())
        )
    return files


def _media(path: Path) -> str:
    known = {".ics": "text/calendar", ".bcf": "application/octet-stream", ".ifc": "text/plain"}
    guessed = mimetypes.guess_type(path.name)[0]
    fallback = "application/octet-stream" if guessed is None else guessed
    return known.get(path.suffix, fallback)
