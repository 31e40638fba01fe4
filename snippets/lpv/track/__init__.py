"""Recorded flights against an approach: reading, deviations, gates, moments, the debrief.

Public: `files` reads any format, `flown.Debrief` holds the answers, `report.text` words them, `verdicts.Comparison`
judges with uncertainty; `form.step` answers the phone.
"""
