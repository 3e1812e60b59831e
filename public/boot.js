// Runs before the app: tells the page which folder of its host the app lies in, opens the address that a
// cold deep link asked for, looks at markup before it becomes part of the page, and opens the journal.
(() => {
  "use strict";

  const base = new URL("./", document.currentScript.src);
  const ours = globalThis.tautline ??= {};
  ours.base = base.href;

  // Every relative address of the page is then the same, whatever screen stands in the address bar. The
  // offline worker has written it into the page already.
  if (!document.querySelector("base")) {
    const told = document.createElement("base");
    told.href = base.href;
    document.head.prepend(told);
  }

  // climb.js sends cold deep links here, as ?at=.
  const at = new URLSearchParams(location.search).get("at");
  if (at !== null && location.pathname === base.pathname) {
    const wanted = URL.parse?.(at, base) ?? new URL(at, base);
    if (wanted.href.startsWith(base.href)) history.replaceState(null, "", wanted.pathname + wanted.search + location.hash);
  }

  // Text becomes markup in this one place, where the browser can be told so. The app escapes what people
  // type, and the page's policy runs no script that is not a file of the app: this is a third fence, for
  // elements that no screen has.
  const NEVER = /<(?:script|iframe|frame|object|embed|link|meta|base|form|style)[\s/>]/i;
  globalThis.trustedTypes?.createPolicy("default", {
    createHTML: (markup) => {
      if (NEVER.test(markup)) throw new TypeError("No screen has such markup.");
      return markup;
    },
    createScriptURL: (address) => {
      if (address !== new URL("sw.js", base).href) throw new TypeError("Only the offline worker is a script of its own.");
      return address;
    },
  });

  // The journal is opened here and now, while the app still loads: so the app need not wait for it.
  // src/store/browser_journal.rs, which asks for it, keeps texts under keys in its one object store.
  function openJournal() {
    return new Promise((well, ill) => {
      const asked = indexedDB.open("tautline", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("journal");
      asked.onsuccess = () => well(asked.result);
      asked.onerror = ill;
    });
  }

  let opened = openJournal();
  opened.catch(() => {});
  // The first call gives the one that is open; a later one, after a fault, opens it again.
  globalThis.tautlineJournal = () => {
    const journal = opened ?? openJournal();
    opened = undefined;
    return journal;
  };
})();
