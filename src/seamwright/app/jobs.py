"""Long work in processes of its own: asked for, run one at a time, told on, cancelled, kept."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from multiprocessing.connection import Connection
from tempfile import TemporaryDirectory
from threading import Event, Thread
from typing import Any, TypeAlias

from seamwright.app.contract.problem import told
from seamwright.errors import InputError, Problem, SeamwrightError
from seamwright.store.jobs import (
    Job,
    JobFile,
    claim_job,
    end_job,
    find_any_job,
    interrupt_jobs,
    is_waiting,
    tell_job,
)
from seamwright.store.open import Store
from seamwright.store.revisions import find_revision
from seamwright.store.settings import read_settings

LISTEN = 0.2
"""How often running work is listened to and the wish to cancel looked up. Our own choice. [s]"""

BEHIND = 5
"""How far work steps back behind the desk, in steps of nice(2). Our own choice."""

Tell: TypeAlias = Callable[[str, float], None]


@dataclass(frozen=True, kw_only=True, slots=True)
class JobKind:
    """A kind of long work. `work` names the function that does it, as ``module:function``.

    It takes an `Errand` and a function to tell phase and progress with, and returns files.
    """

    name: str
    title: str
    work: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Errand:
    """What a worker is sent with: the kind, the plan text, the wishes, units and paper."""

    kind: str
    plan_text: str
    wishes: str
    settings: Mapping[str, str] = field(default_factory=dict)


class Runner:
    """Runs queued work, one piece at a time, until it is closed."""

    def __init__(self, store: Store, kinds: Mapping[str, JobKind]) -> None:
        self._store = store
        self._kinds = kinds
        self._wake, self._closing = Event(), Event()
        self._thread: Thread | None = None
        self.interrupted = interrupt_jobs(store)
        if is_waiting(store):
            self.wake()

    def wake(self) -> None:
        """Say that something was queued."""
        if self._thread is None:
            self._thread = Thread(target=self._run, name="desk-work", daemon=True)
            self._thread.start()
        self._wake.set()

    def close(self) -> None:
        """Stop, breaking off what runs; it is marked interrupted."""
        self._closing.set()
        self._wake.set()
        if self._thread is not None:
            self._thread.join()

    def _run(self) -> None:
        while not self._closing.is_set():
            self._wake.clear()
            job = claim_job(self._store)
            if job is None:
                self._wake.wait()
            else:
                self._do(job)

    def _do(self, job: Job) -> None:
        kind = self._kinds.get(job.kind)
        if kind is None:
            lost = Problem(subject=job.kind, sentence=f"this desk does no work called {job.kind}",
                           remedy="ask for one of the kinds it lists")  # fmt: skip
            end_job(self._store, job.id, "failed", problems=_rows([lost]))
            return
        text = find_revision(self._store, job.house_id, job.revision).plan_text
        errand = Errand(
            kind=job.kind, plan_text=text, wishes=job.wishes, settings=read_settings(self._store)
        )
        ours, theirs = _SPAWN.Pipe()
        with TemporaryDirectory(prefix="seamwright-work-", ignore_cleanup_errors=True) as folder:
            given = (theirs, kind.work, errand, folder)
            worker = _SPAWN.Process(target=work_on, args=given, daemon=True)
            worker.start()
            theirs.close()
            try:
                self._listen(job, ours)
            finally:
                ours.close()
                worker.terminate()
                worker.join()

    def _listen(self, job: Job, ours: Connection) -> None:
        """Take what the worker says until it is done, or nobody wants it any more."""
        while True:
            try:
                word, *said = ours.recv() if ours.poll(LISTEN) else ("nothing",)
            except EOFError:
                broken = Problem(subject=job.kind, sentence="the work broke off without an answer",
                                 remedy="ask for it again; if it recurs, report it")  # fmt: skip
                end_job(self._store, job.id, "failed", problems=_rows([broken]))
                return
            if word == "done":
                end_job(self._store, job.id, "done", files=said[0])
                return
            if word == "failed":
                end_job(self._store, job.id, "failed", problems=said[0])
                return
            if word == "tell":
                tell_job(self._store, job.id, phase=said[0], progress=said[1])
            if self._closing.is_set():
                end_job(self._store, job.id, "interrupted")
                return
            if find_any_job(self._store, job.id).cancel:
                end_job(self._store, job.id, "cancelled")
                return


_SPAWN = multiprocessing.get_context("spawn")


def work_on(desk: Connection, work: str, errand: Errand, folder: str) -> None:
    """Do a piece of work in this process and say how it went; the process ends with the desk's.

    Whatever it writes for a while goes into `folder`, which the desk takes away afterwards, however
    the work ended. It steps back behind the desk, so that pages go on answering.
    """
    tempfile.tempdir = folder
    os.nice(BEHIND)
    Thread(target=_end_with, args=(desk, folder), daemon=True).start()
    module, _, name = work.partition(":")

    def tell(phase: str, progress: float) -> None:
        desk.send(("tell", phase, progress))

    try:
        files: Sequence[JobFile] = getattr(import_module(module), name)(errand, tell)
        desk.send(("done", list(files)))
    except InputError as error:
        desk.send(("failed", _rows(error.problems)))
    except SeamwrightError as error:
        desk.send(("failed", _rows([Problem(subject="house", sentence=str(error), remedy="")])))
    except Exception as error:  # noqa: BLE001 whatever it was, the page must be told
        fault = Problem(
            subject="Seamwright",
            sentence=f"Seamwright has a fault of its own here ({type(error).__name__}: {error})",
            remedy="report it with the plan",
        )
        desk.send(("failed", _rows([fault])))


def _end_with(desk: Connection, folder: str) -> None:
    """End this process when the desk's end of the pipe is gone, and take its folder away."""
    try:
        desk.recv()
    except (EOFError, OSError):
        shutil.rmtree(folder, ignore_errors=True)
        os._exit(1)


def _rows(problems: Sequence[Problem]) -> list[dict[str, Any]]:
    return [told(problem).model_dump() for problem in problems]
