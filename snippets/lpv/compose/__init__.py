"""An approach file written in the browser: its keys as entries of a form, and what is found about them.

Public: `entries.tables_of`, `entries.texts_of`; `form.run`, `form.opened`, `form.started`.
"""
