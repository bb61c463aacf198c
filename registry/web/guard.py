"""The outermost ASGI layer: answers only this machine, refuses writes from other sites, limits what pages load."""

LOCAL = ("127.0.0.1", "localhost", "[::1]")
SAFE = ("GET", "HEAD", "OPTIONS")
NAMES = 500      # values in one address
ADDRESS = 2**16  # bytes of one address
OWN_POLICY = (
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; connect-src 'self'; form-action 'self';"
    " frame-ancestors 'none'; base-uri 'none'"
)
# Datasette's own pages carry inline script and style.
RAW_POLICY = (
    "default-src 'none'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; script-src 'self' 'unsafe-inline';"
    " connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)


def wrap(app):
    """The app behind the guard."""

    async def guarded(scope, receive, send):
        if scope["type"] != "http":
            return await app(scope, receive, send)
        headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}
        refusal = refused(scope["method"], headers) or too_long(scope["path"], scope.get("query_string", b""))
        if refusal:
            return await _refuse(send, *refusal)
        return await app(scope, receive, _with_headers(send))

    return guarded


def refused(method, headers):
    """(status, sentence) when a request is turned away, else None. `headers` have lower-case names."""
    host = headers.get("host", "")
    if host_name(host) not in LOCAL:
        return 421, "This catalogue answers only at 127.0.0.1 and localhost of its own machine."
    if method in SAFE:
        return None
    site, origin = headers.get("sec-fetch-site"), headers.get("origin")
    if site is not None and site not in ("same-origin", "none"):
        return 403, "A page of another site may not write to this catalogue."
    if origin is not None and origin not in (f"http://{host}", f"https://{host}"):
        return 403, "A page of another site may not write to this catalogue."
    return None


def too_long(path, query):
    """(status, sentence) for an address with more values or bytes than any of ours needs, else None; `query` is bytes."""
    if len(path) + len(query) > ADDRESS:
        return 400, f"This address is longer than {ADDRESS // 1024} KB; shorten what you typed."
    if query.count(b"&") >= NAMES:
        return 400, f"This address has more than {NAMES} values; choose fewer."
    return None


def host_name(host):
    """The name in a Host header, without its port."""
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0].lower()


async def _refuse(send, status, sentence):
    body = sentence.encode("utf-8")
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode()),
               (b"content-security-policy", OWN_POLICY.encode()), *_ADDED[1:]]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})


def _with_headers(send):
    async def sending(message):
        if message["type"] == "http.response.start":
            headers = list(message.get("headers", ()))
            known = {name.lower() for name, _value in headers}
            for name, value in _ADDED:
                if name not in known:
                    headers.append((name, value))
            message = {**message, "headers": headers}
        await send(message)

    return sending


_ADDED = (
    (b"content-security-policy", RAW_POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)
