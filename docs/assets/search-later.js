// The search index is as large as all else on a first view together: it is fetched when the reader
// first opens search, not with every page.  Runs before the theme's own script, which asks for it at once.
(() => {
  const { open, send } = XMLHttpRequest.prototype;
  const opened = new Promise((resolve) => {
    document.addEventListener("focusin", (event) => {
      if (event.target.matches(".md-search__input")) resolve();
    });
  });
  XMLHttpRequest.prototype.open = function (method, address, ...rest) {
    this.handbookIndex = /\/search_index\.json$/.test(String(address));
    return open.call(this, method, address, ...rest);
  };
  XMLHttpRequest.prototype.send = function (...body) {
    if (this.handbookIndex) opened.then(() => send.apply(this, body));
    else send.apply(this, body);
  };
})();
