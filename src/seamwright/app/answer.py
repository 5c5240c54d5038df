"""Answers that are ready-made bytes: sent compressed, and not at all when the page has them."""

from __future__ import annotations

from typing import Any

from fastapi import Request, Response

from seamwright.app.guard import DRAWING_POLICY
from seamwright.app.workshop import Packed

JSON = "application/json"
SVG: dict[int | str, dict[str, Any]] = {
    200: {"content": {"image/svg+xml": {"schema": {"type": "string"}}}}
}
"""How a drawing stands in the description of the interface."""


def packed_response(request: Request, packed: Packed, media_type: str = JSON) -> Response:
    """Return a packed document as the answer to a request."""
    headers = {"ETag": packed.etag, "Cache-Control": "no-cache", "Vary": "Accept-Encoding"}
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
