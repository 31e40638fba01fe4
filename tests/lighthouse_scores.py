"""Lighthouse's four scores of pages of a built site, as on a phone.  Used by the benchmark; no part of the tests."""

import json
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from support import ROOT, Compressing, chromium, served

KEPT = ROOT / "tests" / "lighthouse"
INSTALLED = ROOT / ".cache" / "lighthouse"


def missing() -> str:
    """What the machine lacks, in words; "" when Lighthouse can run."""
    lacking = [name for name in ("node", "npm") if shutil.which(name) is None]
    return ", ".join(lacking + ([] if chromium() else ["chromium"]))


def install() -> str:
    """Lighthouse as the lock file says, below .cache; "" or why it could not be had."""
    INSTALLED.mkdir(parents=True, exist_ok=True)
    lock = (KEPT / "package-lock.json").read_bytes()
    done = INSTALLED / "installed-lock.json"
    for path in KEPT.iterdir():
        shutil.copy2(path, INSTALLED / path.name)
    if done.exists() and done.read_bytes() == lock:
        return ""
    run = subprocess.run(["npm", "ci"], cwd=INSTALLED, capture_output=True, text=True)
    if run.returncode:
        return next((line for line in run.stderr.splitlines() if line.strip()), "npm ci failed")
    done.write_bytes(lock)
    return ""


def scores(site: Path, pages: Sequence[str]) -> list[dict[str, Any]]:
    """For each page: its scores by category, and what each score below 100 is short of."""
    with served(site, Compressing) as address:
        command = ["node", "run.mjs", str(chromium(whole=True)), *(address + page for page in pages)]
        run = subprocess.run(command, cwd=INSTALLED, capture_output=True, text=True)
    if run.returncode:
        raise SystemExit(run.stdout + run.stderr)
    return [json.loads(line) for line in run.stdout.splitlines() if line.startswith("{")]
