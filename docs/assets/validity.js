// Data expire: a page and its card say so in words, first of all, by this device's clock, online or not.  Dates that
// are none, and a clock that stands before the day the page was built, give the caution instead of nothing.
// Runs from the head of the page, on each notice as it arrives: nothing moves after it was painted.
(() => {
  const isDay = (text) => {
    const time = new Date(`${text}T00:00:00Z`);
    return !Number.isNaN(time.getTime()) && time.toISOString().slice(0, 10) === text;
  };

  function check(notice) {
    const builtOn = (document.querySelector('meta[name="hb-built"]')?.content ?? "").slice(0, 10);
    const { from, until } = notice.dataset;
    const now = new Date();
    const today = Number.isNaN(now.getTime()) ? "" : now.toISOString().slice(0, 10);
    let warning = "";
    if (![from, until, today].every(isDay) || from >= until) {
      warning = "Check the dates yourself: this device cannot tell whether these data are in force.";
    } else if (today < builtOn) {
      warning = "Check the dates yourself: the clock of this device is wrong, or stands before the day this page was built.";
    } else if (today >= until) {
      warning = "Out of date: these data ended. Do not use them; take the current cycle.";
    } else if (today < from) {
      warning = "Not yet in force: these data begin later.";
    }
    if (warning) {
      const words = document.createElement("strong");
      words.textContent = warning + " ";
      notice.prepend(words);
      notice.dataset.stale = "";
      notice.setAttribute("role", "note");
      notice.closest(".hb-card, article")?.prepend(notice);
    }
  }

  const seen = new WeakSet();
  function checkAll() {
    document.querySelectorAll(".hb-validity").forEach((notice) => {
      if (!seen.has(notice)) {
        seen.add(notice);
        check(notice);
      }
    });
  }

  const arriving = new MutationObserver(checkAll);
  arriving.observe(document, { childList: true, subtree: true });
  document.addEventListener("DOMContentLoaded", () => {
    arriving.disconnect();
    checkAll();
  });
})();
