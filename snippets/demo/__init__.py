"""Makes the invented demo data: approaches in open water, and recorded flights to them."""
