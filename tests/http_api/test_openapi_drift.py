"""The committed OpenAPI document is the one that the code renders."""

from pathlib import Path

from branchwright.http_api.openapi import render

COMMITTED = Path(__file__).parents[2] / "openapi" / "v1.json"


def test_the_committed_document_is_up_to_date():
    assert COMMITTED.read_text("utf-8") == render(), "run: branchwright openapi, and commit openapi/v1.json"
