"""Planning a flight to an approach: minima, cold, notices, alternates, graded findings."""
