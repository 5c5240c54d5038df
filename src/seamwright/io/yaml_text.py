"""Read a YAML file into plain text values and remember where each one stands.

Scalars stay text (``7.50`` is not a float, ``no`` is not false): only the reader of a field knows
what it wants. Limits guard against files no person wrote.
"""

from __future__ import annotations

import warnings
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from seamwright.errors import FormatError, Problem

Tree: TypeAlias = "dict[str, Tree] | list[Tree] | str | None"
Path_: TypeAlias = tuple[str | int, ...]

LARGEST_FILE = 2_000_000
"""Largest text read. A plan of 100 panels is about 20 kB. [bytes]"""

_MOST_NODES = 200_000
_DEEPEST = 30
_NULL = "tag:yaml.org,2002:null"


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Where a value stands in its file, counted from 1."""

    line: int
    column: int


@dataclass(frozen=True, kw_only=True, slots=True)
class YamlText:
    """What a YAML file says: nested dicts, lists and text, and the place of every path in it."""

    tree: Tree
    places: Mapping[Path_, Place]
    file: str | None

    def place(self, path: Sequence[str | int]) -> Place | None:
        """Return the place of a path, or of the nearest thing around it that has one."""
        for length in range(len(path), -1, -1):
            found = self.places.get(tuple(path[:length]))
            if found is not None:
                return found
        return None


def read_text(source: Path | str | bytes, what: str, name: str | None) -> tuple[str, str | None]:
    """Return the text of a file (or the given text) and the name to use for it in messages.

    A `Path`, or a string of one line, is a file; a string with a line break, bytes, or an empty
    string is the text itself.

    Raises
    ------
    FormatError
        When the file cannot be opened, is too large, or is not text.
    """
    if isinstance(source, str) and ("\n" in source or not source.strip()):
        raw, label = source.encode("utf-8", "surrogatepass"), name
    elif isinstance(source, bytes):
        raw, label = source, name
    else:
        label = str(source) if name is None else name
        raw = _read_bytes(Path(source), what, label)
    if len(raw) > LARGEST_FILE:
        _refuse_size(len(raw), what, label)
    return _decoded(raw, what, label), label


def read_yaml(source: Path | str | bytes, *, what: str, name: str | None = None) -> YamlText:
    """Return what a YAML file says, with places. `what` names the kind of file in messages.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty or not YAML; all with a remedy.
    """
    text, label = read_text(source, what, name)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            node = YAML(typ="safe", pure=True).compose(text)
    except MarkedYAMLError as error:
        raise FormatError([_syntax_problem(error, what, label)]) from None
    except RecursionError:
        raise FormatError([_too_deep(what, label)]) from None
    except (YAMLError, ValueError, LookupError, TypeError, AttributeError):
        raise FormatError([_not_yaml(what, label)]) from None
    if node is None or _is_null(node):
        remedy = f"start it from a built-in house or see the example in docs/{what}.md"
        told = f"the {what} file is empty"
        raise FormatError([Problem(subject=what, sentence=told, remedy=remedy, file=label, line=1)])
    taken = _Taking(what=what, file=label)
    tree = taken.take(node, ())
    if taken.problems:
        raise FormatError(taken.problems)
    return YamlText(tree=tree, places=taken.places, file=label)


@dataclass(kw_only=True, slots=True)
class _Taking:
    """The walk over the node graph; it stops growing where a file repeats itself without end."""

    what: str
    file: str | None
    places: dict[Path_, Place] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    full: bool = False

    def take(self, node: Node, path: Path_) -> Tree:
        here = Place(line=node.start_mark.line + 1, column=node.start_mark.column + 1)
        self.places.setdefault(path, here)
        if len(self.places) > _MOST_NODES or len(path) > _DEEPEST:
            self._stop(here)
        if self.full:
            return None
        if isinstance(node, MappingNode):
            return self._mapping(node, path)
        if isinstance(node, SequenceNode):
            return [self.take(item, (*path, i)) for i, item in enumerate(node.value)]
        return None if _is_null(node) else _printable(str(node.value))

    def _mapping(self, node: MappingNode, path: Path_) -> Tree:
        found: dict[str, Tree] = {}
        for key, value in node.value:
            if self.full:
                break
            here = Place(line=key.start_mark.line + 1, column=key.start_mark.column + 1)
            if not isinstance(key, ScalarNode):
                told = "a list or a group stands where a word belongs"
                self._tell(told, here, "write a word and a colon")
                continue
            word = _printable(str(key.value))
            if word in found:
                self._tell(f"‘{_short(word)}’ is given twice in the same place", here)
                continue
            self.places[(*path, word)] = here
            found[word] = self.take(value, (*path, word))
        return found

    def _stop(self, here: Place) -> None:
        if not self.full:
            self.full = True
            self._tell(f"the {self.what} file repeats or nests without end from here", here)

    def _tell(
        self, sentence: str, here: Place, remedy: str = "write each thing once, under one word"
    ) -> None:
        self.problems.append(
            Problem(
                subject=self.what,
                sentence=sentence,
                remedy=remedy,
                file=self.file,
                line=here.line,
                column=here.column,
            )
        )


def _is_null(node: Node) -> bool:
    return isinstance(node, ScalarNode) and str(node.tag) == _NULL


def _printable(text: str) -> str:
    """Return the text without halves of surrogate pairs, which no output can carry."""
    return text.encode("utf-8", "replace").decode("utf-8")


def _read_bytes(path: Path, what: str, label: str) -> bytes:
    try:
        if path.is_file() and path.stat().st_size > LARGEST_FILE:
            _refuse_size(path.stat().st_size, what, label)
        return path.read_bytes()
    except FileNotFoundError:
        told, remedy = f"there is no file ‘{_short(label)}’", "check the path and the spelling"
    except IsADirectoryError:
        told = f"‘{_short(label)}’ is a folder"
        remedy = f"name the {what} file inside it"
    except (OSError, ValueError):
        told = f"‘{_short(label)}’ cannot be opened"
        remedy = "check the path and that you may read it"
    raise FormatError([Problem(subject=what, sentence=told, remedy=remedy, file=label)])


def _refuse_size(size: int, what: str, label: str | None) -> None:
    told = f"the {what} file is {size / 1e6:.1f} MB, more than the {LARGEST_FILE / 1e6:.0f} MB read"
    remedy = f"check that this is the {what} file; put long lists of panels in a CSV of their own"
    raise FormatError([Problem(subject=what, sentence=told, remedy=remedy, file=label)])


def _decoded(raw: bytes, what: str, label: str | None) -> str:
    encoding = "utf-16" if raw[:2] in {b"\xff\xfe", b"\xfe\xff"} else "utf-8-sig"
    try:
        text = raw.decode(encoding)
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        told = f"the {what} file is not text in UTF-8"
    else:
        if "\0" not in text:
            return text
        line, told = text[: text.index("\0")].count("\n") + 1, f"the {what} file is not text"
    remedy = "check that this is the right file and save it as UTF-8 text"
    raise FormatError([Problem(subject=what, sentence=told, remedy=remedy, file=label, line=line)])


def _syntax_problem(error: MarkedYAMLError, what: str, label: str | None) -> Problem:
    mark = error.problem_mark if error.problem_mark is not None else error.context_mark
    told = error.problem if error.problem is not None else error.context
    why = " ".join(str(told).split()) if told is not None else "it breaks off"
    return Problem(
        subject=what,
        sentence=f"this is not YAML here: {_short(why, 120)}",
        remedy="check the indentation, the colons and the quotes of this line and the one above",
        file=label,
        line=None if mark is None else mark.line + 1,
        column=None if mark is None else mark.column + 1,
    )


def _too_deep(what: str, label: str | None) -> Problem:
    told = f"the {what} file nests lists or groups too deeply"
    return Problem(
        subject=what, sentence=told, remedy="check for brackets that are never closed", file=label
    )


def _not_yaml(what: str, label: str | None) -> Problem:
    told = f"the {what} file cannot be read as YAML"
    remedy = "check that this is the right file; compare it with a built-in house"
    return Problem(subject=what, sentence=told, remedy=remedy, file=label)


def _short(text: str, most: int = 40) -> str:
    shown = "".join(mark if mark.isprintable() else "·" for mark in text[:most])
    return f"{shown}…" if len(text) > most else shown
