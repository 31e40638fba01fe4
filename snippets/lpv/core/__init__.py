"""What every room rests on: errors for people, units, positions as written, data cycles, courses, findings, text."""
