"""What to buy: on the page and as files."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request, Response

from seamwright.app.answer import packed_response
from seamwright.app.built import Built
from seamwright.app.contract.order import OrderOut
from seamwright.app.desk import HouseId, TheDesk
from seamwright.app.order_docs import order_csv, order_out, order_workbook
from seamwright.app.spoken import SpokenRoute
from seamwright.app.taste import TheLanguage, TheUnits

router = APIRouter(tags=["order"], route_class=SpokenRoute)

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_BYTES = {"schema": {"type": "string", "format": "binary"}}
_XLSX: dict[int | str, dict[str, Any]] = {200: {"content": {XLSX: _BYTES}}}
_CSV: dict[int | str, dict[str, Any]] = {200: {"content": {"text/csv": _BYTES}}}


@router.get("/houses/{house}/order", response_model=OrderOut)
def get_order(desk: TheDesk, request: Request, house: HouseId) -> Response:
    """Return what to buy and how to cut it."""
    row = desk.revision(house)

    def make(built: Built) -> bytes:
        return order_out(built, row.number).model_dump_json().encode()

    packed = desk.document(row, "order", row.number, make)
    return packed_response(request, packed, told=OrderOut)


@router.get("/houses/{house}/order.xlsx", response_class=Response, responses=_XLSX)
def get_order_workbook(
    desk: TheDesk, request: Request, units: TheUnits, language: TheLanguage, house: HouseId
) -> Response:
    """Return order, cutting, schedule and register as a workbook."""
    row = desk.revision(house)

    def make(built: Built) -> bytes:
        return order_workbook(built, units, language)

    packed = desk.document(row, f"order.xlsx {units} {language}", "", make)
    return _file(packed_response(request, packed, XLSX), "order.xlsx")


@router.get("/houses/{house}/order.csv", response_class=Response, responses=_CSV)
def get_order_csv(
    desk: TheDesk, request: Request, units: TheUnits, language: TheLanguage, house: HouseId
) -> Response:
    """Return the order as a CSV file."""
    row = desk.revision(house)

    def make(built: Built) -> bytes:
        return order_csv(built, units, language)

    packed = desk.document(row, f"order.csv {units} {language}", "", make)
    return _file(packed_response(request, packed, "text/csv; charset=utf-8"), "order.csv")


def _file(answer: Response, name: str) -> Response:
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer
