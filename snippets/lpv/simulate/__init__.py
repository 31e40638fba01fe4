"""Fast-time simulation of an approach, flown by the modes of an aircraft type.

Public: `simulation.simulate`, `simulation.summary`, `scenario` for the file, `records.Flight`.
"""
