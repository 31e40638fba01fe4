"""Page scripts of docs/index.md: a module for each figure, with a function `show() -> Shown`."""
