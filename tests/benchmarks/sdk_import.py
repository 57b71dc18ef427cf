"""How long `import branchwright_sdk` takes beside `import pydantic, httpx`, which it cannot do without.

Run from the root of the repository: python tests/benchmarks/sdk_import.py. The two are imported in turn, each
in a fresh interpreter, so that a busy machine slows both; the ratio of the medians is what counts, and its
budget is 1.3.
"""

import statistics
import subprocess
import sys
import time

RUNS = 15
BUDGET = 1.3
THEIRS = "import pydantic, httpx"
OURS = "import branchwright_sdk"


def seconds(statement: str) -> float:
    """Return the wall time of one statement in a fresh interpreter, less the interpreter's own start."""
    source = f"import time; begun = time.perf_counter(); {statement}; print(time.perf_counter() - begun)"
    ran = subprocess.run([sys.executable, "-c", source], capture_output=True, text=True, check=True)
    return float(ran.stdout)


def main() -> int:
    """Print both medians and their ratio; return 1 if the ratio is over the budget."""
    for statement in (THEIRS, OURS):  # once each, so that all bytecode is compiled
        seconds(statement)
    begun = time.perf_counter()
    pairs = [(seconds(THEIRS), seconds(OURS)) for _ in range(RUNS)]
    theirs, ours = (statistics.median(column) for column in zip(*pairs, strict=True))
    print(f"{THEIRS}: {theirs * 1000:.0f} ms; {OURS}: {ours * 1000:.0f} ms; medians of {RUNS} runs each")
    print(f"ratio {ours / theirs:.2f}, budget {BUDGET}; took {time.perf_counter() - begun:.0f} s")
    return 1 if ours / theirs > BUDGET else 0


if __name__ == "__main__":
    sys.exit(main())
