"""Approach guidance as a state machine: rules, states, annunciations, and proofs over every state.

Public: `rules.Rules` for a type, `machine.step` and `machine.run` for events, `annunciation.announce` for what the crew
sees, `ways.way_back` for what brings guidance back, `exploration` for the proofs,
`reached` for what never happens, `cases` for what a type does in the cases that tell most.
"""
