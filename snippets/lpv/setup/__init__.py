"""What each side of the cockpit has set, checked against the approach and against the other side."""
