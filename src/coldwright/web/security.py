"""Who may ask: only a page of this server, on this machine."""

from __future__ import annotations

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HOSTS = ("127.0.0.1", "localhost")
SAFE_METHODS = ("GET", "HEAD", "OPTIONS")
# Charts and drawings carry style attributes of their own; scripts come from files here alone.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
GREATEST_BODY = 2_000_000  # bytes; a form of a build holds a few tens of thousand


class LocalOnly:
    """Refuses a strange Host (a name that was pointed here) and a request from a strange page."""

    def __init__(self, app: ASGIApp, port: int) -> None:
        """Guard `app`, which listens at `port`."""
        self.app = app
        self.hosts = tuple(f"{host}:{port}" for host in HOSTS)
        self.origins = tuple(f"http://{host}" for host in self.hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or answer 403."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        fault = self.fault_of(scope["method"], Headers(scope=scope))
        if fault:
            answer = PlainTextResponse(f"Refused: {fault}.", status_code=403)
            await answer(scope, receive, send)
            return

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = {name for name, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *(
                        (name.encode(), value.encode())
                        for name, value in HEADERS.items()
                        if name.encode() not in given
                    ),
                ]
            await send(message)

        await self.app(scope, receive, sent)

    def fault_of(self, method: str, headers: Headers) -> str:
        """Why a request is refused; empty when it is not."""
        hosts = headers.getlist("host")
        if len(hosts) != 1 or hosts[0].lower() not in self.hosts:
            return "the Host of the request is not this server"
        origin = headers.get("origin")
        if origin is not None and origin.lower() not in self.origins:
            return "the request comes from another page"
        if method in SAFE_METHODS:
            return ""
        if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return "the request comes from another page"
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > GREATEST_BODY:
            return "the request is too large"
        return ""
