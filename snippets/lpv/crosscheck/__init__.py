"""Chart against database against computation, and one data cycle against the next."""
