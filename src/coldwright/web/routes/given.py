"""What routes are given, by name."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from coldwright.web.board import Asked, Board
from coldwright.web.page import asked_of, sent_form, workshop_of
from coldwright.web.workshop import Workshop

Shop = Annotated[Workshop, Depends(workshop_of)]
Sent = Annotated[dict[str, str], Depends(sent_form)]


def _asked(request: Request) -> Asked:
    return asked_of(request)


def _board(name: str, request: Request, shop: Shop) -> Board:
    return shop.board(name, asked_of(request))


def _sent_board(name: str, request: Request, shop: Shop, sent: Sent) -> Board:
    return shop.board(name, asked_of(request, sent))


AskedBoard = Annotated[Board, Depends(_board)]
SentBoard = Annotated[Board, Depends(_sent_board)]
