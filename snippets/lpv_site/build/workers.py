"""Worker processes: as many as the machine has cores, where there is work enough for them."""

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from multiprocessing import get_context
from threading import Thread
from time import sleep
from typing import TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")
WORTH_A_POOL = 3
LOOKS_EVERY_S = 0.5


def run_all(work: Callable[[Item], Result], items: Sequence[Item], worth: int = WORTH_A_POOL) -> list[Result]:
    """What `work` gives for each item, in their order; here where there are fewer than `worth` of them.

    Where a worker is killed, this process does the work; where this process is killed, the workers end.
    work: a function that a new process can find by its name
    """
    if len(items) >= worth:
        with suppress(BrokenProcessPool), shared():
            try:
                return list(_pools[-1].map(work, items, chunksize=1))
            except BrokenProcessPool:
                _pools[-1] = _pool()  # for what comes after
                raise
    return [work(item) for item in items]


@contextmanager
def shared() -> Iterator[None]:
    """The same processes for everything that is done inside: what one has imported and read, it has the next time."""
    if _pools:
        yield
        return
    _pools.append(_pool())
    try:
        yield
    finally:
        _pools.pop().shutdown()


def _pool() -> ProcessPoolExecutor:
    """As many processes as there are cores; each is started when there is work for it."""
    return ProcessPoolExecutor(os.cpu_count(), get_context("spawn"), initializer=_end_with, initargs=(os.getpid(),))


_pools: list[ProcessPoolExecutor] = []


def _end_with(parent: int) -> None:
    """Let a worker end when the build has: it would wait for work for ever."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the build ends its workers itself
    end_with(parent)


def end_with(parent: int) -> None:
    """Let this process end soon after the one that started it, however that ended."""

    def watch() -> None:
        while os.getppid() == parent:
            sleep(LOOKS_EVERY_S)
        os._exit(1)

    Thread(target=watch, daemon=True).start()
