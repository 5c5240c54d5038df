"""Documents to PDF."""

from __future__ import annotations

from seamwright.pdf.write import pdf_bytes, write_pdf

__all__ = ["pdf_bytes", "write_pdf"]
