"""Approach guidance as a state machine: rules, states, announcements, and proofs over every state."""
