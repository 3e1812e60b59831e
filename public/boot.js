// Runs before the app: registers the worker that makes Tautline work with no network, opens the
// journal, and, should the app ever crash, says so plainly and lets the person keep everything that
// was saved.
(() => {
  "use strict";

  // The worker lies beside this script, so a host may put both under any path.
  const worker = new URL("sw.js", document.currentScript.src);

  function registerWorker() {
    // Without a worker (a private window, an old browser) the app still runs while it is online.
    navigator.serviceWorker?.register(worker, { updateViaCache: "none" }).then(watch).catch(() => {});
  }

  // A new version waits until the person takes it. That one waits stands as an attribute of the
  // page, so that a screen needs no code to show its offer: style alone does.
  function watch(registration) {
    const look = () => document.documentElement.toggleAttribute("data-newer", !!registration.waiting);
    const follow = () => registration.installing?.addEventListener("statechange", look);
    registration.addEventListener("updatefound", follow);
    follow();
    look();
    addEventListener("click", (event) => {
      if (!event.target.closest?.("[data-switch]") || !registration.waiting) return;
      // Only now: on the very first visit the controller changes too.
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
      registration.waiting.postMessage({ type: "switch" });
    });
    // An installed app may stay open for days: it asks anew when it is looked at again.
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => {});
    });
  }

  // Everything the app keeps, as the text it was stored as.
  function savedData() {
    const keys = {};
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith("tautline")) keys[key] = localStorage.getItem(key);
    }
    return JSON.stringify({ kind: "tautline-rescue", keys }, null, 1);
  }

  function saveFile() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([savedData()], { type: "application/json" }));
    link.download = "tautline-rescue.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }

  function element(tag, text, style) {
    const made = document.createElement(tag);
    made.textContent = text;
    Object.assign(made.style, style);
    return made;
  }

  function button(text, action) {
    const made = element("button", text, {
      font: "inherit", minHeight: "3rem", padding: "0 1rem", margin: "0.75rem 0.75rem 0 0",
    });
    made.type = "button";
    made.addEventListener("click", action);
    return made;
  }

  // System colours and inline styles: this must be readable whatever state the page is in.
  function showStopped() {
    if (document.getElementById("stopped")) return;
    const box = element("div", "", {
      position: "fixed", inset: "auto 0 0 0", zIndex: "2147483647", boxSizing: "border-box",
      padding: "1rem 1rem max(1rem, env(safe-area-inset-bottom))", borderTop: "2px solid",
      font: "1.125rem/1.5 system-ui, sans-serif", color: "CanvasText", background: "Canvas",
    });
    box.id = "stopped";
    box.setAttribute("role", "alert");
    const said = "Tautline stopped. Nothing you saved is lost. Reload to go on.";
    box.append(
      element("p", said, { margin: "0" }),
      button("Reload", () => location.reload()),
      button("Save all data as a file", saveFile),
    );
    // Outside body, so that nothing the broken app still does to body can take it away.
    document.documentElement.append(box);
    document.getElementById("starting")?.remove();
  }

  // A panic in Rust arrives here as a RuntimeError; a damaged download as one of the other two.
  function isCrash(error) {
    return error instanceof WebAssembly.RuntimeError
      || error instanceof WebAssembly.CompileError
      || error instanceof WebAssembly.LinkError;
  }

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

  addEventListener("error", (event) => { if (isCrash(event.error)) showStopped(); });
  addEventListener("unhandledrejection", (event) => { if (isCrash(event.reason)) showStopped(); });
  addEventListener("load", registerWorker);
})();
