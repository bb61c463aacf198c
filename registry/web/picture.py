"""Kept pictures, as they are; an SVG may run and load nothing."""

from datasette.utils.asgi import Response

from registry.catalogue import files
from registry.web.page import page, read

POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"


@page
async def show(request, datasette):
    """The bytes of the file /picture/SHA256 when it is a picture."""
    sha = request.url_vars["sha"]

    def collect(catalogue):
        file = files.get(catalogue, sha)
        return file, files.path_of(catalogue, sha).read_bytes() if file.media_type in files.PICTURES else None

    file, content = await read(datasette, collect)
    if content is None:
        return Response.text("That file is not a picture.", status=404)
    return Response(content, content_type=file.media_type, headers={
        "content-security-policy": POLICY, "cache-control": "private, max-age=31536000, immutable"})
