"""Lessons: objectives in measurable words, each with what is shown, practised and asked.  `lesson` reads them."""
