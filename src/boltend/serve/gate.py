"""Who may come in: the token, the Host and the Origin of every request. Knows no web server.

A web page of anybody's, open in the same browser, can send requests to this computer. What keeps it out:
it does not know the token; its Origin is another; and a name of its own that it lets point here ("DNS
rebinding") stands in the Host. Source: RFC 6454 (Origin), RFC 6455 section 10.2 (Origin of a WebSocket),
RFC 9112 section 3.2 (forms of the target, Host), from memory.
"""

import hmac
import secrets
from collections.abc import Iterable, Sequence

TOKEN_BYTES = 32


class Gate:
    """Judges requests to a server that browsers reach under `names` (addresses or host names) at `port`."""

    def __init__(self, names: Iterable[str], port: int, token: str | None = None) -> None:
        self.token = token or secrets.token_urlsafe(TOKEN_BYTES)
        self.hosts = tuple(dict.fromkeys(_host(name, port) for name in names))
        # Browsers send a cookie to every port of a host: the name tells two servers apart.
        self.cookie = f"boltend-{port}"

    @property
    def url(self) -> str:
        """The address to open, with the token."""
        return f"http://{self.hosts[0]}/?token={self.token}"

    def refusal(
        self, target: str, hosts: Sequence[str], origins: Sequence[str], *, needs_origin: bool = False
    ) -> str:
        """Why a request is refused, by its target as sent and all its Host and Origin headers; "" if not.

        A browser names the Origin of every WebSocket (`needs_origin`), but not of a page asked for by hand.
        """
        if not target.startswith("/") or target.startswith("//"):
            return "a request names a path and nothing before it"
        if len(hosts) != 1 or hosts[0].lower() not in self.hosts:
            return "the Host is not the one that this server is known by"
        if len(origins) > 1 or (needs_origin and not origins):
            return "the Origin is missing or said twice"
        if origins and origins[0].lower() != f"http://{hosts[0].lower()}":
            return "the Origin is another"
        return ""

    def knows(self, said: str | None) -> bool:
        """Whether this is the token. Takes as long for a near miss as for any other."""
        return said is not None and hmac.compare_digest(
            said.encode("utf-8", "surrogatepass"), self.token.encode()
        )


def _host(name: str, port: int) -> str:
    """What a browser puts into Host: an IPv6 address in brackets, no port where it is the usual one."""
    shown = f"[{name}]" if ":" in name else name.lower()
    return shown if port == 80 else f"{shown}:{port}"


def headers(host: str) -> dict[str, str]:
    """What every answer bears: nothing is kept, nothing is loaded from elsewhere, no frame around it.

    Styles may stand in the page, for the terminal in it (xterm.js) writes its own; scripts may not.
    """
    policy = {
        "default-src": "'none'",
        "script-src": "'self'",
        "style-src": "'self' 'unsafe-inline'",
        "font-src": "'self'",
        "img-src": "'self'",
        "connect-src": f"'self' ws://{host}",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": "'none'",
    }
    return {
        "Cache-Control": "no-store",
        "Content-Security-Policy": "; ".join(f"{key} {value}" for key, value in policy.items()),
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Server": "boltend",
    }
