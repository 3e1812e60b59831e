// A cold address deep inside the app, such as /any/path/cut/abc/walk, on a host that answers it with
// 404.html or with the page itself: there the page's own relative links lead nowhere. It asks for this
// script in every folder above; where it lies, there lies the app, and the page is opened again from
// there. Where the page stands in its own folder, boot.js came before, and nothing is to be done.
(() => {
  "use strict";
  if (globalThis.tautline?.base) return;
  const base = new URL("./", document.currentScript.src).href;
  const here = location.href.slice(0, location.href.length - location.hash.length);
  const rest = here.slice(base.length);
  if (!here.startsWith(base) || rest.startsWith("?at=")) return;
  location.replace(`${base}?at=${encodeURIComponent(rest)}${location.hash}`);
})();
