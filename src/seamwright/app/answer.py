"""Answers that are ready-made bytes: sent compressed, and not at all when the page has them."""

from __future__ import annotations

from typing import Any

from fastapi import Request, Response
from pydantic import BaseModel

from seamwright.app.desk import desk_of
from seamwright.app.guard import DRAWING_POLICY
from seamwright.app.spoken import in_words, rewording
from seamwright.app.taste import VARY, Reader, reader_of
from seamwright.app.workshop import Packed

JSON = "application/json"
SVG: dict[int | str, dict[str, Any]] = {
    200: {"content": {"image/svg+xml": {"schema": {"type": "string"}}}}
}
"""How a drawing stands in the description of the interface."""


def packed_response(
    request: Request, packed: Packed, media_type: str = JSON, *, told: type[BaseModel] | None = None
) -> Response:
    """Return a packed document as the answer to a request.

    `told` is what the document holds, where it holds texts to be put into the reader's words.
    """
    headers = {"ETag": packed.etag, "Cache-Control": "no-cache", "Vary": VARY}
    if told is not None:
        reader = reader_of(request)
        packed = _for_reader(request, packed, told, reader)
        headers |= {"ETag": packed.etag, "Content-Language": reader.language}
    if packed.etag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)
    if "gzip" in request.headers.get("accept-encoding", ""):
        headers["Content-Encoding"] = "gzip"
        return Response(packed.zipped, media_type=media_type, headers=headers)
    return Response(packed.body, media_type=media_type, headers=headers)


def drawing_response(request: Request, packed: Packed) -> Response:
    """Return a drawing as the answer to a request; opened by itself it may load nothing."""
    answer = packed_response(request, packed, "image/svg+xml")
    answer.headers["Content-Security-Policy"] = DRAWING_POLICY
    return answer


def _for_reader(request: Request, packed: Packed, told: type[BaseModel], reader: Reader) -> Packed:
    """Return the document in the reader's words, put into them once."""
    reword = rewording(told)
    if reader.as_made or reword is None:
        return packed
    workshop = desk_of(request).workshop
    key = ("told", packed.etag, reader.language, reader.units)
    return workshop.document(key, lambda: in_words(packed.body, reword, reader))
