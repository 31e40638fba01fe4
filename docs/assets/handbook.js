// Wide tables can be scrolled with the keyboard.
document.querySelectorAll(".md-typeset__table, .md-typeset__scrollwrap").forEach((box) => {
  box.tabIndex = 0;
});
