"""Answers that are ready-made bytes: sent compressed, and not at all when the page has them."""

from __future__ import annotations

from fastapi import Request, Response

from seamwright.app.workshop import Packed

JSON = "application/json"


def packed_response(request: Request, packed: Packed, media_type: str = JSON) -> Response:
    """Return a packed document as the answer to a request."""
    headers = {"ETag": packed.etag, "Cache-Control": "no-cache", "Vary": "Accept-Encoding"}
    if packed.etag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)
    if "gzip" in request.headers.get("accept-encoding", ""):
        headers["Content-Encoding"] = "gzip"
        return Response(packed.zipped, media_type=media_type, headers=headers)
    return Response(packed.body, media_type=media_type, headers=headers)
