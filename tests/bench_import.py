"""A whole national file imported, imported again, and the cycle after it compared; in processes of their own."""

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import national_file
from support import ROOT

AIRPORTS, RECORDS = 1200, 400_000
CHANGED = {number: national_file.Change(altitude=True) for number in range(0, AIRPORTS, 20)}
Row = tuple[str, str, str]


def rows() -> Iterator[Row]:
    """Seconds on the clock and of the processor, and the most memory; of one core."""
    yield "load of the machine before", f"{os.getloadavg()[0]:.1f}", ""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        first, second = folder / "first.txt", folder / "second.txt"
        national_file.write(first, AIRPORTS, RECORDS, "2609")
        national_file.write(second, AIRPORTS, RECORDS, "2610", CHANGED)
        what = f"{AIRPORTS * len(national_file.SHAPES)} approaches out of {RECORDS} records"
        yield f"import, {what}", measured("lpv.importer", str(first), "--all-sbas", "--out", str(folder / "old")), (
            "60 s, 200 MB")
        yield "the same again, nothing new", measured(
            "lpv.importer", str(first), "--all-sbas", "--out", str(folder / "old")), ""
        yield "the cycle after it, beside it", measured(
            "lpv.importer", str(second), "--all-sbas", "--out", str(folder / "new")), "60 s, 200 MB"
        yield f"the two compared, {len(CHANGED)} approaches changed", measured(
            "lpv.cycle", str(folder / "old"), str(folder / "new")), ""


def measured(module: str, *arguments: str) -> str:
    """What a command takes."""
    quiet = ["--quiet"] if module == "lpv.importer" else []
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "snippets")}
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    run = subprocess.run([sys.executable, "-c", WITH_MEMORY, module, *arguments, *quiet], env=environment,
                         capture_output=True, text=True)
    seconds, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    if run.returncode not in (0, 1):
        raise SystemExit(run.stderr)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return f"{seconds:.1f} s ({cpu:.1f} s of the processor), {int(run.stderr.split()[-1]) / 1000:.0f} MB"


WITH_MEMORY = """
import runpy, sys
sys.argv = sys.argv[1:]
try:
    runpy.run_module(sys.argv[0], run_name="__main__", alter_sys=True)
finally:
    status = open("/proc/self/status").read()  # of this program alone, which getrusage is not
    print(status.partition("VmHWM:")[2].split()[0], file=sys.stderr)
"""
