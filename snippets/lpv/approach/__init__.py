"""The approach record: identity, chart, database, as an approach file holds them."""
