"""Page scripts of docs/after-landing/: a module for each table or figure, with a function `show() -> Shown`."""
