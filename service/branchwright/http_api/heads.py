"""Bounding what a client may send before its request is one: uvicorn's protocol keeps a head however long it is."""

from __future__ import annotations

import logging
from typing import Final

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

LONGEST_HEAD: Final = 64 * 1024
"""Bytes of a request line with its headers. Common practice, no source: servers allow from 8 to 64 KiB."""
# What arrives at once may hold more than a whole head; asyncio reads up to 256 KiB.
_PIECE: Final = 8 * 1024
_REFUSAL: Final = (
    b"HTTP/1.1 431 Request Header Fields Too Large\r\n"
    b"content-type: text/plain; charset=utf-8\r\n"
    b"content-length: 30\r\n"
    b"connection: close\r\n"
    b"\r\n"
    b"The head is longer than 64 KiB"
)
_log = logging.getLogger("branchwright.errors")


class BoundedHeads(HttpToolsProtocol):
    """uvicorn's protocol, which closes a connection that sends on and on without anything coming of it.

    What is sent since the last beginning of a request, piece of a body or end is the head of a request, or what
    follows the last piece of a body; the parser holds all of it. It is counted by the pieces in which the parser
    is given it, so one more piece may be taken than the bound says.
    """

    _unparsed_bytes = 0

    def data_received(self, data: bytes) -> None:
        """Hand the data to the parser piece by piece, and see what has come of each."""
        for start in range(0, len(data), _PIECE):
            self._take(data[start : start + _PIECE])
            if self.transport.is_closing():
                return

    def _take(self, piece: bytes) -> None:
        self._unparsed_bytes += len(piece)
        super().data_received(piece)
        if self._unparsed_bytes > LONGEST_HEAD and not self.transport.is_closing():
            _log.warning("head of a request too long")
            # Before the first request there is none, whatever the annotation says.
            if self.cycle is None or self.cycle.response_complete:  # pyright: ignore[reportUnnecessaryComparison]
                self.transport.write(_REFUSAL)
            self.transport.close()

    def on_message_begin(self) -> None:
        """A request begins."""
        self._unparsed_bytes = 0
        super().on_message_begin()

    def on_body(self, body: bytes) -> None:
        """A piece of the body is there; it has a limit of its own."""
        self._unparsed_bytes = 0
        super().on_body(body)

    def on_chunk_header(self) -> None:
        """A piece of the body is announced."""
        self._unparsed_bytes = 0

    def on_message_complete(self) -> None:
        """The request is complete."""
        self._unparsed_bytes = 0
        super().on_message_complete()
