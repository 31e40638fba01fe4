"""The command line: one command `lpv`, how every command runs and ends, and the JSON Schemas.

Public: `main.COMMANDS`, `main.run`, `runner.run` and its exit codes, `json_schema.schema_of`.
"""
