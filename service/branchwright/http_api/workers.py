"""Several worker processes that share what they count.

Each process keeps its counts in files of one folder, and whoever is asked for the metrics adds up the files of all. The
counts of a process that ended stay in the sum; what it had in progress does not.
"""

from __future__ import annotations

import sys
from socket import socket

import uvicorn
from prometheus_client.multiprocess import mark_process_dead  # pyright: ignore[reportUnknownVariableType]
from uvicorn.config import STARTUP_FAILURE
from uvicorn.supervisors import Multiprocess


class Workers(Multiprocess):
    """uvicorn's supervisor of worker processes, which also takes the gauges of those that ended out of the sum."""

    def __init__(self, config: uvicorn.Config, sockets: list[socket], shared_folder: str) -> None:
        """Supervise as many processes as ``config`` says, which count in ``shared_folder``."""
        super().__init__(config, sockets)
        self._shared_folder = shared_folder
        self._known: set[int | None] = set()

    def keep_subprocess_alive(self) -> None:
        """Replace processes that have died, and forget what those that are gone had in progress."""
        self._known |= self._process_ids()
        super().keep_subprocess_alive()
        for ended in self._known - self._process_ids():
            mark_process_dead(ended, self._shared_folder)  # type: ignore[no-untyped-call]
        self._known = self._process_ids()

    def _process_ids(self) -> set[int | None]:
        return {process.pid for process in self.processes}


def run_workers(config: uvicorn.Config, shared_folder: str) -> None:
    """Serve with several processes until told to stop.

    Raises:
        SystemExit: with uvicorn's status, where the address cannot be taken or a process fails to start.
    """
    workers = Workers(config, [config.bind_socket()], shared_folder)
    workers.run()
    if any(process.exitcode == STARTUP_FAILURE for process in workers.processes):
        sys.exit(STARTUP_FAILURE)
