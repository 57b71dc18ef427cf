"""Pages for people: the interactive documentation, the OpenAPI document and what each problem type means.

Everything is served by the service itself; no page names another host.
"""

from __future__ import annotations

from functools import cache
from html import escape
from importlib.resources import files
from typing import Final

from fastapi import APIRouter, Request
from starlette.responses import HTMLResponse, Response

from branchwright.http_api.contract import rendered
from branchwright.http_api.problems import KINDS, NOT_FOUND, ProblemError
from branchwright.http_api.routes import revalidated
from branchwright.http_api.suggestions import nearest_name

router = APIRouter(include_in_schema=False)

# Swagger UI sets style attributes and draws its icons from data: addresses; it needs nothing else.
_PAGE_POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_PAGE: Final = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<link rel="icon" href="data:,">
{head}</head>
<body>
{body}</body>
</html>
"""
_SWAGGER_HEAD: Final = '<link rel="stylesheet" href="docs/assets/swagger-ui.css">\n'
_SWAGGER_BODY: Final = """<div id="swagger-ui"></div>
<script src="docs/assets/swagger-ui-bundle.js"></script>
<script src="docs/assets/start.js"></script>
"""
# Addresses are relative, so that the pages also work behind a proxy that serves them under a prefix.
_START: Final = b"""SwaggerUIBundle({
  url: "openapi.json",
  dom_id: "#swagger-ui",
  deepLinking: true,
  validatorUrl: null,
});
"""
_MEDIA_TYPES: Final = {
    "swagger-ui.css": "text/css",
    "swagger-ui-bundle.js": "text/javascript",
    "start.js": "text/javascript",
}


_PROBLEM_ITEM: Final = """<dt><a href="problems/{kind.slug}">{kind.slug}</a> ({kind.status})</dt>
<dd>{title}</dd>
"""


@router.get("/openapi.json")
async def show_openapi(request: Request) -> Response:
    """The OpenAPI document of this service."""
    return revalidated(request, Response(rendered(request.app.openapi()), media_type="application/json"))


@router.get("/docs")
async def show_docs() -> Response:
    """The interactive documentation."""
    return _page("Branchwright", _SWAGGER_BODY, head=_SWAGGER_HEAD)


@router.get("/docs/assets/{name}")
async def show_docs_asset(request: Request, name: str) -> Response:
    """A script or style of the interactive documentation."""
    if name not in _MEDIA_TYPES:
        raise ProblemError(
            NOT_FOUND, f"The documentation has no such asset. It has {', '.join(_MEDIA_TYPES)}."
        )
    return revalidated(request, Response(_asset(name), media_type=_MEDIA_TYPES[name]))


@router.get("/problems")
async def show_problems() -> Response:
    """The types of problem, with their meanings."""
    items = "".join(_PROBLEM_ITEM.format(kind=kind, title=escape(kind.title)) for kind in KINDS.values())
    return _page("Problem types", f"<h1>Problem types</h1>\n<dl>\n{items}</dl>\n")


@router.get("/problems/{slug}")
async def show_problem(slug: str) -> Response:
    """What one type of problem means."""
    kind = KINDS.get(slug)
    if kind is None:
        near = nearest_name(slug, KINDS)
        suggestion = f"; did you mean {near}?" if near else "."
        raise ProblemError(
            NOT_FOUND, f"There is no such problem type{suggestion} It is one of {', '.join(KINDS)}."
        )
    return _page(
        kind.title,
        f"<h1>{escape(kind.title)}</h1>\n<p>{escape(kind.meaning)}</p>\n"
        f"<p>Type <code>{kind.type}</code>, status {kind.status}.</p>\n",
    )


@cache
def _asset(name: str) -> bytes:
    return _START if name == "start.js" else (files("fastapi_offline") / "static" / name).read_bytes()


def _page(title: str, body: str, *, head: str = "") -> Response:
    return HTMLResponse(
        _PAGE.format(title=escape(title), head=head, body=body),
        headers={"Content-Security-Policy": _PAGE_POLICY},
    )
