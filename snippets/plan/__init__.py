"""Page scripts of docs/plan/: a module for each table or figure, with a function `show() -> Shown`."""
