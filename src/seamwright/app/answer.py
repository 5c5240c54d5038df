"""Answers that are ready-made bytes: sent compressed, and not at all when the page has them."""

from __future__ import annotations

from typing import Any

from fastapi import Request, Response
from pydantic import BaseModel

from seamwright.app.desk import desk_of
from seamwright.app.guard import DRAWING_POLICY
from seamwright.app.spoken import in_words, rewording
from seamwright.app.taste import language_of
from seamwright.app.workshop import Packed
from seamwright.words import Language

JSON = "application/json"
VARY = "Accept-Encoding, Accept-Language, Seamwright-Units"
SVG: dict[int | str, dict[str, Any]] = {
    200: {"content": {"image/svg+xml": {"schema": {"type": "string"}}}}
}
"""How a drawing stands in the description of the interface."""


def packed_response(
    request: Request, packed: Packed, media_type: str = JSON, *, told: type[BaseModel] | None = None
) -> Response:
    """Return a packed document as the answer to a request.

    `told` is what the document holds, where it holds texts to be put into the reader's language.
    """
    headers = {"ETag": packed.etag, "Cache-Control": "no-cache", "Vary": VARY}
    if told is not None:
        language = language_of(request)
        packed = _in_language(request, packed, told, language)
        headers |= {"ETag": packed.etag, "Content-Language": language}
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


def _in_language(
    request: Request, packed: Packed, told: type[BaseModel], language: Language
) -> Packed:
    """Return the document in a language, put into it once."""
    reword = rewording(told)
    if language == "en" or reword is None:
        return packed
    workshop = desk_of(request).workshop
    return workshop.document(
        ("told", packed.etag, language), lambda: in_words(packed.body, reword, language)
    )
