"""Words and tables: Markdown, headings, search, short addresses."""
