"""Everything that goes wrong, told in one shape."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from seamwright.app.contract.problem import ProblemOut, Problems, told
from seamwright.app.spoken import spoken_model
from seamwright.app.taste import reader_of, units_asked
from seamwright.errors import InputError, SeamwrightError
from seamwright.store.clash import ClashError, MissingError

_MOST = 40
"""Problems told at once."""

_STATUS = {
    400: ("the request cannot be read", "send it as the description of the interface says"),
    404: ("there is nothing at this address", "start from the first page"),
    405: ("this address does not take that kind of request", "see the description"),
    413: ("this is larger than what is taken here", "check that it is the right file"),
    415: ("this kind of content is not taken here", "send JSON, or a form with files"),
}
"""What to say by HTTP status where nobody said more."""

ERRORS: dict[int | str, dict[str, Any]] = {
    "4XX": {"model": Problems, "description": "What is wrong, and what to do about it."}
}
"""How every route's errors stand in the description of the interface."""


def problems_response(request: Request, status: int, problems: list[ProblemOut]) -> JSONResponse:
    """Return the answer that tells problems, in the words of the request."""
    return spoken_model(Problems(problems=problems[:_MOST]), status, reader_of(request))


def one_problem(
    request: Request, status: int, subject: str, sentence: str, remedy: str
) -> JSONResponse:
    """Return the answer that tells one problem."""
    problem = ProblemOut(subject=subject, sentence=sentence, remedy=remedy)
    return problems_response(request, status, [problem])


def add_refusals(app: FastAPI) -> None:
    """Make the app tell everything that goes wrong in one shape."""
    app.add_exception_handler(InputError, _unusable)
    app.add_exception_handler(SeamwrightError, _failed)
    app.add_exception_handler(RequestValidationError, _misfit)
    app.add_exception_handler(HTTPException, _by_status)
    app.add_exception_handler(Exception, _fault)


def status_of(error: InputError) -> int:
    """Return the HTTP status of input that cannot be used."""
    if isinstance(error, MissingError):
        return 404
    return 409 if isinstance(error, ClashError) else 422


def _unusable(request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, InputError):
        raise error
    units = units_asked(request)
    problems = [told(problem, units) for problem in error.problems]
    return problems_response(request, status_of(error), problems)


def _failed(request: Request, error: Exception) -> JSONResponse:
    return one_problem(request, 422, "house", str(error), "look at the plan there")


def _misfit(request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, RequestValidationError):
        raise error
    found = [
        ProblemOut(
            subject=_where(problem["loc"]),
            sentence=f"{_where(problem['loc'])}: {problem['msg'][:200]}",
            remedy="send it as the description of the interface says",
        )
        for problem in error.errors()
    ]
    return problems_response(request, 422, found)


def _by_status(request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, HTTPException):
        raise error
    sentence, remedy = _STATUS.get(error.status_code, (str(error.detail), ""))
    answer = one_problem(request, error.status_code, "request", sentence, remedy)
    answer.headers.update(error.headers or {})
    return answer


def _fault(request: Request, error: Exception) -> JSONResponse:
    told_as = f"Seamwright has a fault of its own here ({type(error).__name__})"
    return one_problem(request, 500, "Seamwright", told_as, "report it with what you did")


def _where(place: tuple[str | int, ...] | list[str | int]) -> str:
    words = [str(part) for part in place if part not in {"body", "path", "query"}]
    return ".".join(words)[:120] if words else "the request"
