"""Worker processes: as many as the machine has cores, where there is work enough for them."""

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from functools import partial
from multiprocessing import get_context
from typing import TypeVar

from lpv_site.figures import figure

Item = TypeVar("Item")
Result = TypeVar("Result")
WORTH_A_POOL = 8


def each(work: Callable[[Item], Result], items: Sequence[Item], worth: int = WORTH_A_POOL) -> list[Result]:
    """What `work` gives for each item, in their order; here where there are fewer than `worth` of them.

    Where a worker is killed, this process does the work.
    work: a function that a new process can find by its name; what it sets aside (see
    `lpv_site.figures.figure`) is not kept
    """
    if len(items) >= worth:
        with suppress(BrokenProcessPool), ProcessPoolExecutor(os.cpu_count(), get_context("spawn")) as pool:
            return list(pool.map(partial(_one, work), items))
    return [work(item) for item in items]


def _one(work: Callable[[Item], Result], item: Item) -> Result:
    done = work(item)
    figure.forget()
    return done
