"""The client's half of a WebSocket to a program on this machine.

Source:
    RFC 6455 (2011), The WebSocket Protocol, sections 4.1 and 5.2.
"""

import base64
import os
import socket
from itertools import cycle
from types import TracebackType
from typing import Self

FINAL, MASKED = 0x80, 0x80
CONTINUED, TEXT, CLOSE, PING, PONG = 0x0, 0x1, 0x8, 0x9, 0xA


class WebSocket:
    """Sends texts and receives texts."""

    def __init__(self, port: int, path: str, timeout: float) -> None:
        """Connect to a port of this machine; a text may take `timeout` seconds to come."""
        self._connection = socket.create_connection(("127.0.0.1", port), timeout)
        self._incoming = self._connection.makefile("rb")
        key = base64.b64encode(os.urandom(16)).decode()
        self._connection.sendall(
            f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nUpgrade: websocket\r\n"
            f"Connection: Upgrade\r\nSec-WebSocket-Key: {key}\r\n"
            "Sec-WebSocket-Version: 13\r\n\r\n".encode()
        )
        answer = self._incoming.readline()
        if b" 101 " not in answer:
            raise ConnectionError(f"no WebSocket but {answer!r}")
        while self._incoming.readline().strip():
            pass

    def __enter__(self) -> Self:
        """Return the socket."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        """Hang up."""
        self._incoming.close()
        self._connection.close()

    def send(self, text: str) -> None:
        """Send a text."""
        self._send(TEXT, text.encode())

    def receive(self) -> str:
        """Return the next text.

        Raises:
            ConnectionError: If there is none any more.
            TimeoutError: If it does not come.
        """
        parts = []
        while True:
            first, second = self._read(2)
            length = second & 0x7F
            if length > 125:
                length = int.from_bytes(self._read(2 if length == 126 else 8))
            payload = self._read(length)
            match first & 0x0F:
                case op if op in {CONTINUED, TEXT}:
                    parts.append(payload)
                    if first & FINAL:
                        return b"".join(parts).decode()
                case op if op == PING:
                    self._send(PONG, payload)
                case op if op == CLOSE:
                    raise ConnectionError("the other side has closed the WebSocket")

    def _send(self, kind: int, payload: bytes) -> None:
        length = len(payload)
        if length <= 125:
            size = bytes([MASKED | length])
        elif length < 1 << 16:
            size = bytes([MASKED | 126]) + length.to_bytes(2)
        else:
            size = bytes([MASKED | 127]) + length.to_bytes(8)
        mask = os.urandom(4)
        hidden = bytes(byte ^ key for byte, key in zip(payload, cycle(mask), strict=False))
        self._connection.sendall(bytes([FINAL | kind]) + size + mask + hidden)

    def _read(self, count: int) -> bytes:
        found = self._incoming.read(count)
        if len(found) < count:
            raise ConnectionError("the other side has hung up")
        return found
