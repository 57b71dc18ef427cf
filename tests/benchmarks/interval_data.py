"""How long a year of 15-minute readings takes as Green Button XML, and how much memory. Linux only.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/interval_data.py

A file of 35,040 readings, about 10 MB, in daily blocks with indents, as exports print it, is written once. Each run is
a fresh interpreter that has everything imported: it reads the file, answers it and writes the answer as JSON. Prints
the medians of the time, of the processor's part of it, which a busy machine stretches less, and of the growth of the
greatest memory in RAM; at most 2 s and 150 MB of 1,000,000 bytes are wanted. The same year as CSV and as JSON is
timed beside it.
"""

import argparse
import json
import math
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

READINGS = 35_040
A_DAY = 96
START = 1672556400
"""2023-01-01T00:00:00-07:00."""

WANTED_S = 2.0
WANTED_MB = 150

READING = """
        <IntervalReading>
          <cost>{cost}</cost>
          <ReadingQuality>
            <quality>17</quality>
          </ReadingQuality>
          <timePeriod>
            <duration>900</duration>
            <start>{start}</start>
          </timePeriod>
          <value>{value}</value>
        </IntervalReading>"""
BLOCK = """
  <entry>
    <link rel="self" href="/UsagePoint/1/MeterReading/1/IntervalBlock/{number}"/>
    <link rel="up" href="/UsagePoint/1/MeterReading/1/IntervalBlock"/>
    <content>
      <IntervalBlock xmlns="http://naesb.org/espi">
        <interval><duration>86400</duration><start>{start}</start></interval>{readings}
      </IntervalBlock>
    </content>
  </entry>"""
FILE = """<?xml version="1.0" encoding="UTF-8"?>
<feed xmlns="http://www.w3.org/2005/Atom">
  <entry>
    <link rel="self" href="/UsagePoint/1"/>
    <link rel="related" href="/UsagePoint/1/MeterReading"/>
    <content><UsagePoint xmlns="http://naesb.org/espi"/></content>
  </entry>
  <entry>
    <link rel="self" href="/UsagePoint/1/MeterReading/1"/>
    <link rel="up" href="/UsagePoint/1/MeterReading"/>
    <link rel="related" href="/UsagePoint/1/MeterReading/1/IntervalBlock"/>
    <link rel="related" href="/ReadingType/1"/>
    <content><MeterReading xmlns="http://naesb.org/espi"/></content>
  </entry>
  <entry>
    <link rel="self" href="/ReadingType/1"/>
    <content>
      <ReadingType xmlns="http://naesb.org/espi">
        <accumulationBehaviour>4</accumulationBehaviour><flowDirection>1</flowDirection>
        <intervalLength>900</intervalLength><powerOfTenMultiplier>0</powerOfTenMultiplier><uom>72</uom>
      </ReadingType>
    </content>
  </entry>{blocks}
</feed>
"""


def energy_wh(at: int) -> int:
    """Return an invented household's energy in the interval with this number."""
    return round(180 + 120 * math.sin(at / A_DAY * 2 * math.pi) + (at * 7919) % 97 + (at % 211 == 0) * 1400)


def green_button() -> str:
    """Return the year as a Green Button file."""
    readings = [
        READING.format(cost=at % 90, start=START + 900 * at, value=energy_wh(at)) for at in range(READINGS)
    ]
    blocks = [
        BLOCK.format(number=at, start=START + 900 * at, readings="".join(readings[at : at + A_DAY]))
        for at in range(0, READINGS, A_DAY)
    ]
    return FILE.format(blocks="".join(blocks))


def table() -> str:
    """Return the year as CSV in the clock of its place, with start and end."""
    from datetime import UTC, datetime
    from zoneinfo import ZoneInfo

    zone = ZoneInfo("America/Denver")

    def clock(at: int) -> str:
        return datetime.fromtimestamp(START + 900 * at, UTC).astimezone(zone).strftime("%m/%d/%Y %H:%M")

    rows = [f"{clock(at)},{clock(at + 1)},{energy_wh(at) / 1000}" for at in range(READINGS)]
    return "\n".join(["START,END,USAGE", *rows, ""])


def request() -> str:
    """Return the year as a JSON body with stamps."""
    from datetime import UTC, datetime

    readings = [
        {"at": datetime.fromtimestamp(START + 900 * at, UTC).isoformat(), "value": energy_wh(at)}
        for at in range(READINGS)
    ]
    return json.dumps({"series": {"kind": "stamped", "unit": "energy-wh", "readings": readings}})


def forget_greatest_memory() -> None:
    """Let the kernel count the greatest memory from here on; what ran before, and its parent, would hide it."""
    Path("/proc/self/clear_refs").write_text("5", encoding="ascii")


def greatest_memory_mb() -> float:
    """Return the greatest memory in RAM since it was last forgotten."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    (line,) = (line for line in status.splitlines() if line.startswith("VmHWM:"))
    return int(line.split()[1]) * 1024 / 1e6


def measure(form: str, file: Path) -> None:
    """Answer a file and print its seconds, those of the processor, the growth in MB and the greatest demand."""
    from pydantic import TypeAdapter

    from branchwright.checks.service_capacity import interval_data
    from branchwright.http_api import strict_json

    query = interval_data.Instructions.model_validate(
        {"edition": "nec-2023", "time_zone": "America/Denver", "has_generation": "false"}
    )
    columns = {"unit": "energy-kwh", "time_column": "START", "end_column": "END", "value_column": "USAGE"}
    parse = TypeAdapter(interval_data.IntervalDataRequest).validate_python
    write = TypeAdapter(interval_data.IntervalDataAnswer).serializer.to_json
    ways: dict[str, Callable[[bytes], interval_data.IntervalDataAnswer]] = {
        "xml": lambda body: interval_data.read_green_button(body, query),
        "csv": lambda body: interval_data.read_csv(body, query.model_copy(update=columns)),
        "json": lambda body: interval_data.read_json(parse(strict_json.parse(body))),
    }
    forget_greatest_memory()
    before = greatest_memory_mb()
    begun, begun_processor = time.perf_counter(), time.process_time()
    answer = ways[form](file.read_bytes())
    write(answer, by_alias=True)
    taken, worked = time.perf_counter() - begun, time.process_time() - begun_processor
    grown = greatest_memory_mb() - before
    demand = answer.measured_demand
    print(taken, worked, grown, None if demand is None else demand.greatest_w)


def main() -> None:
    """Write the files, measure in turn and print the medians."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("--measure", nargs=2, metavar=("FORM", "FILE"), help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.measure:
        measure(options.measure[0], Path(options.measure[1]))
        return
    with tempfile.TemporaryDirectory() as folder:
        files = {form: Path(folder) / form for form in ("xml", "csv", "json")}
        for file, text in zip(files.values(), (green_button(), table(), request()), strict=True):
            file.write_text(text, encoding="utf-8")
        found: dict[str, list[tuple[float, float, float]]] = {form: [] for form in files}
        for _ in range(options.runs):
            for form, file in files.items():
                ran = subprocess.run(
                    [sys.executable, __file__, "--measure", form, str(file)],
                    capture_output=True,
                    text=True,
                    check=True,
                )
                seconds, processor, megabytes, greatest = ran.stdout.split()
                if float(greatest) != 4 * max(map(energy_wh, range(READINGS))):
                    raise SystemExit(f"{form}: the greatest demand is wrong: {greatest}")
                found[form].append((float(seconds), float(processor), float(megabytes)))
        print(f"{READINGS} readings, medians of {options.runs} runs in fresh interpreters")
        for form, runs in found.items():
            seconds, processor, megabytes = (statistics.median(column) for column in zip(*runs, strict=True))
            slowest, _, most = (max(column) for column in zip(*runs, strict=True))
            size = files[form].stat().st_size / 1e6
            print(
                f"  {form:4} {size:5.1f} MB: {seconds:.2f} s (slowest {slowest:.2f}), {processor:.2f} s "
                f"of it on the processor, memory {megabytes:+.0f} MB "
                f"(most {most:+.0f})"
            )
        print(f"wanted of xml: at most {WANTED_S:g} s and {WANTED_MB} MB")


if __name__ == "__main__":
    main()
