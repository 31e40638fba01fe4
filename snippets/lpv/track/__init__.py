"""Recorded flights against an approach: reading, deviations, gates, moments, the debrief."""
