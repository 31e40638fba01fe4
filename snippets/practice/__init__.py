"""Page scripts of docs/practice/: a module for each table or figure, with a function `show() -> Shown`."""
