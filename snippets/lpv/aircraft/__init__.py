"""The aircraft record: category, speeds, equipment, and the rules of a type's modes."""
