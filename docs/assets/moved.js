// Lead on from an address of old, or a short one, to the page; a part of a page that went elsewhere has its own way.
(() => {
  const { to, parts } = document.documentElement.dataset;
  const named = location.hash.slice(1);
  const part = parts ? JSON.parse(parts) : {};
  if (Object.hasOwn(part, named)) location.replace(part[named]);
  else location.replace(to.includes("#") ? to : to + location.hash);
})();
