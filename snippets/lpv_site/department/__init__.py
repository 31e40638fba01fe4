"""A department's own folder: data, colours, cautions, facts."""
