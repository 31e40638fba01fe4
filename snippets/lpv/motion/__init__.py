"""How an aircraft moves: wind triangle, turns, descent and climb, slowing down."""
