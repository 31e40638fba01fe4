"""Decisions on final: minima, what can be seen, the missed approach, gates for a stabilised approach."""
