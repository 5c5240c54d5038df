"""Answers in the reader's words and units: what the contract marks as told goes through them."""

from __future__ import annotations

import json
from collections.abc import Callable, Coroutine, Mapping
from functools import cache
from types import UnionType
from typing import Annotated, Any, TypeAlias, Union, get_args, get_origin, get_type_hints

from fastapi import Request, Response
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import JSONResponse
from fastapi.routing import APIRoute
from pydantic import BaseModel

from seamwright.app.contract.told import Said
from seamwright.app.taste import VARY, Reader, reader_of
from seamwright.units.figures import convert_figures
from seamwright.words import translate

Json: TypeAlias = Any
"""What JSON holds."""
Reword: TypeAlias = Callable[[Json, Reader], Json]


class SpokenRoute(APIRoute):
    """A route whose answer comes in the language and units of the request.

    Answers that are ready-made bytes (`packed_response`) bring their language along and pass.
    """

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        """Return the handler with its answer in the reader's words."""
        handle = super().get_route_handler()
        reword = rewording(self.response_model)
        if reword is None:
            return handle

        async def spoken(request: Request) -> Response:
            answer = await handle(request)
            if "content-language" in answer.headers:
                return answer
            reader = await run_in_threadpool(reader_of, request)
            answer.headers.update({"Content-Language": reader.language, "Vary": VARY})
            if reader.as_made:
                return answer
            body = await run_in_threadpool(in_words, bytes(answer.body), reword, reader)
            kept = {k: v for k, v in answer.headers.items() if k != "content-length"}
            return Response(body, status_code=answer.status_code, headers=kept)

        return spoken


def spoken_model(model: BaseModel, status: int, reader: Reader) -> JSONResponse:
    """Return an answer in a reader's words, outside of the routes."""
    reword = rewording(type(model))
    data = model.model_dump(mode="json")
    told = data if reword is None else reword(data, reader)
    return JSONResponse(told, status_code=status, headers={"Content-Language": reader.language})


def in_words(body: bytes, reword: Reword, reader: Reader) -> bytes:
    """Return a document with its told texts in a reader's words."""
    return json.dumps(reword(json.loads(body), reader), ensure_ascii=False).encode()


@cache
def rewording(shape: Json) -> Reword | None:
    """Return how to put the told texts of a type into a reader's words; None when it has none."""
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        return _of_model(shape)
    origin: Json = get_origin(shape)
    inner = get_args(shape)
    if origin is Annotated:
        said = [part for part in inner[1:] if isinstance(part, Said)]
        return _way(said[0]) if said else rewording(inner[0])
    if origin is list:
        return _of_list(rewording(inner[0]))
    if origin is dict:
        return _of_dict(rewording(inner[0]), rewording(inner[1]))
    parts = inner if origin in {Union, UnionType} else ()
    return next((one for one in map(rewording, parts) if one is not None), None)


def _way(said: Said) -> Reword:
    return _figured if said.figures else _told


def _told(value: Json, reader: Reader) -> Json:
    return translate(value, reader.language) if isinstance(value, str) else value


def _figured(value: Json, reader: Reader) -> Json:
    if not isinstance(value, str):
        return value
    return convert_figures(translate(value, reader.language), reader.units)


def _of_model(shape: type[BaseModel]) -> Reword | None:
    hints = get_type_hints(shape, include_extras=True)
    fields = {name: rewording(hints[name]) for name in shape.model_fields}
    known: Mapping[str, Reword] = {k: one for k, one in fields.items() if one is not None}
    if not known:
        return None

    def reword(value: Json, reader: Reader) -> Json:
        if not isinstance(value, dict):
            return value
        return {k: known[k](v, reader) if k in known else v for k, v in value.items()}

    return reword


def _of_list(one: Reword | None) -> Reword | None:
    if one is None:
        return None
    return lambda value, reader: [one(part, reader) for part in value] if value else value


def _of_dict(key: Reword | None, one: Reword | None) -> Reword | None:
    if key is None and one is None:
        return None

    def reword(value: Json, reader: Reader) -> Json:
        if not isinstance(value, dict):
            return value
        return {
            k if key is None else key(k, reader): v if one is None else one(v, reader)
            for k, v in value.items()
        }

    return reword
