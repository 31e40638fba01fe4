"""What coded records cannot hold, filled in from charts by several people: worklist, sheets, and the 28-day round.

    worklist   what is still to fill, approach by approach (`worklist`)
    sheet      the same as CSV, and CSV back into the files (`sheet`, `merge`)
    round      a new data cycle: import beside the old, carry over, list, check, bulletin (`rounds`)
"""
