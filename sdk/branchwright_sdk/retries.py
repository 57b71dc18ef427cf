"""When to ask again, and after how long.

Every operation of the service is a pure question that changes nothing, POST included, so each may be asked
again. What is retried: a connection that failed, and the statuses 429, 502, 503 and 504. What is not: a
service that was reached and did not answer in time, since the same question would take as long again.
"""

from __future__ import annotations

import random
import time
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import UTC
from email.utils import parsedate_to_datetime

RETRIED_STATUSES = frozenset({429, 502, 503, 504})


async def _sleep_async(seconds: float) -> None:
    import asyncio  # blocking callers need not wait for its import

    await asyncio.sleep(seconds)


@dataclass(frozen=True)
class Pacing:
    """How long to wait before asking again; the functions are there to be replaced in tests.

    The wait doubles from `first_s` up to `longest_s`, and a random half of it is left off, so that many
    clients do not come back at once. A longer Retry-After is honoured up to `longest_retry_after_s`; where
    the service asks for more than that, the error is raised at once rather than after a wait that is either
    too short for the service or too long for the caller.
    """

    first_s: float = 0.25
    longest_s: float = 4.0
    longest_retry_after_s: float = 30.0
    sleep: Callable[[float], None] = time.sleep
    sleep_async: Callable[[float], Awaitable[None]] = _sleep_async
    random: Callable[[], float] = random.random
    clock: Callable[[], float] = time.time

    def wait_s(self, attempt: int, retry_after: str | None = None) -> float | None:
        """Return the seconds to wait after failed attempt 0, 1, 2..., or None if it must not be repeated.

        `retry_after` is the header's value: seconds, or an HTTP date.
        """
        wait = min(self.first_s * 2.0 ** min(attempt, 30), self.longest_s)
        wait *= 1 - self.random() / 2
        asked = self._asked_s(retry_after)
        return None if asked > self.longest_retry_after_s else max(wait, asked)

    def _asked_s(self, retry_after: str | None) -> float:
        if retry_after is None:
            return 0.0
        if retry_after.strip().isdecimal():
            return float(retry_after)
        try:
            moment = parsedate_to_datetime(retry_after)
        except ValueError:  # neither form: as if there were no header
            return 0.0
        if moment.tzinfo is None:  # the date says -0000, which is UTC too
            moment = moment.replace(tzinfo=UTC)
        return moment.timestamp() - self.clock()
