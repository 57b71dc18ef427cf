"""The OpenAPI document as data and as the text of ``openapi/v1.json``."""

from __future__ import annotations

from branchwright.http_api.app import create_app
from branchwright.http_api.contract import Document, rendered
from branchwright.http_api.settings import Settings


def document(settings: Settings | None = None) -> Document:
    """The OpenAPI 3.1 document of the service. No setting changes it."""
    return create_app(settings).openapi()


def render() -> str:
    """The document as the committed file holds it: the same text for the same code."""
    return rendered(document())
