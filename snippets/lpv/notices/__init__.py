"""Notices (NOTAM): what a text says, and what it takes from each line of minima at an airport at a time.

`reading.read_notice` reads a text on its own; `airport.effect_at` compares it with a place, a time and a procedure.
`notam` takes the form apart, `words` holds the vocabulary, `kinds` says what each kind means and what to plan.
"""
