"""ARINC 424 records: reading them, and making approach files from them.

Public: `reader.Source` for the records, `scope.approaches` for what is in a file, `approach.build` for one approach,
`importer` for the command.
"""
