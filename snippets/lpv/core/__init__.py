"""What every room rests on: errors for people, units, positions, data cycles, courses, findings, text.

Public: `errors.DomainError` and `errors.DataError`, `findings.Finding`, `text.quantity` and `text.number`, `units`,
`airac`, `course`, `dms`, `sample.share_interval`.
"""
