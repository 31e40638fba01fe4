"""What git says of the handbook's folder and of a department's."""

import subprocess
from pathlib import Path

# A folder of another user, as in a container, is read too; nothing that its own settings name is run.
GIT = ("git", "-c", "safe.directory=*", "-c", "core.fsmonitor=false", "-c", "log.showSignature=false")


def git(where: Path, *arguments: str) -> str:
    """What git says about a folder; "" where it says nothing, or is not there."""
    try:
        run = subprocess.run([*GIT, *arguments], cwd=where, capture_output=True, text=True)
    except OSError:
        return ""
    return run.stdout.strip() if run.returncode == 0 else ""
