"""Planning a flight to an approach: `sheet.plan` gives every finding; `rules` holds the sets of rules as data.

`schema` and `operator` are the files, `case` joins them; `lines`, `chart`, `equipment`, `alternate` and `notices` are
the checks, `forecast` is the weather.
"""
