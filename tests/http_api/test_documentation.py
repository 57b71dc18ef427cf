"""Pages for people are complete and name no other host."""

import re

import pytest

from branchwright.http_api.problems import KINDS

URL = re.compile(r"https?://|//[a-z0-9-]+\.|@import", re.IGNORECASE)


def test_the_docs_page_loads_only_what_the_service_serves(client):
    page = client.get("/docs")
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert not URL.search(page.text)
    assert "<script>" not in page.text
    assets = re.findall(r'(?:src|href)="([^":]+)"', page.text)
    assert assets == [
        "docs/assets/swagger-ui.css",
        "docs/assets/swagger-ui-bundle.js",
        "docs/assets/start.js",
    ]
    for asset in assets:
        answer = client.get(f"/{asset}")
        assert answer.status_code == 200
        assert len(answer.content) > 50
    start = client.get("/docs/assets/start.js").text
    assert not URL.search(start)
    assert "validatorUrl: null" in start


def test_the_docs_page_may_run_only_our_own_scripts(client):
    policy = client.get("/docs").headers["content-security-policy"]
    directives = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    assert directives["default-src"] == "'none'"
    assert directives["script-src"] == directives["connect-src"] == "'self'"
    assert directives["frame-ancestors"] == "'none'"


def test_assets_are_revalidated(client):
    first = client.get("/docs/assets/swagger-ui-bundle.js")
    assert first.headers["content-type"].startswith("text/javascript")
    again = client.get("/docs/assets/swagger-ui-bundle.js", headers={"If-None-Match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


@pytest.mark.parametrize("name", ["favicon.png", "redoc.standalone.js", "..%2Fapp.py", "%2e%2e/__init__.py"])
def test_no_other_file_is_served(client, name):
    assert client.get(f"/docs/assets/{name}").status_code == 404


def test_each_problem_type_has_its_page(client):
    index = client.get("/problems").text
    for slug, kind in KINDS.items():
        assert f'href="problems/{slug}"' in index
        page = client.get(kind.type)
        assert page.status_code == 200
        assert kind.title in page.text
        assert not URL.search(page.text)


def test_an_unknown_problem_type_is_told(client):
    problem = client.get("/problems/invalid-jsn").json()
    assert problem["status"] == 404
    assert "did you mean invalid-json?" in problem["detail"]


def test_etags(client):
    first = client.get("/v1/things")
    etag = first.headers["etag"]
    assert re.fullmatch(r'"[0-9a-f]{64}"', etag)
    for known in (etag, f"W/{etag}", f'"other", {etag}', "*"):
        again = client.get("/v1/things", headers={"If-None-Match": known})
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", etag)
        assert "x-request-id" in again.headers
    for other in ('"other"', "", etag.strip('"')):
        assert client.get("/v1/things", headers={"If-None-Match": other}).status_code == 200
    assert client.get("/v1/things?limit=1").headers["etag"] != etag
