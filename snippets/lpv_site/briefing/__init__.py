"""The briefing page of an approach, and its card."""
