"""The requests of the situations, with their answers: cases that an electrician can read."""

import tomllib
from functools import cache
from pathlib import Path
from typing import TypeAlias

from tests.checks.circuits import Json, designed, reviewed

Asked: TypeAlias = tuple[str, Json, Json]
"""Kind, request and answer."""

FOLDER = Path(__file__).parents[1] / "situations"


@cache
def requests() -> dict[str, tuple[str, Json]]:
    """Kind and request of each design and review, by file and edition."""
    found: dict[str, tuple[str, Json]] = {}
    for path in sorted(FOLDER.glob("*.toml")):
        situation = tomllib.loads(path.read_text(encoding="utf-8"))
        if situation["kind"] not in ("design", "review"):
            continue
        request = situation["request"]
        for edition in situation.get("editions", [request.get("edition")]):
            found[f"{path.stem} {edition}"] = (situation["kind"], {"edition": edition, **request})
    return found


def asked_of(name: str) -> list[Asked]:
    """A situation with its answer, and the review of its design where it has one."""
    kind, request = requests()[name]
    answer = {"design": designed, "review": reviewed}[kind](request)
    found: list[Asked] = [(kind, request, answer)]
    if kind == "design" and answer["review_request"] is not None:
        found.append(("review", answer["review_request"], reviewed(answer["review_request"])))
    return found
