"""The other generated pages: aircraft, plans, flights, drills, debriefs, reference."""
