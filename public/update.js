// The offline worker as the page sees it: registered once the first screen stands, so that what it
// fetches takes nothing from that; told that this version starts; and a new version, which waits.
(() => {
  "use strict";

  const { base, started, version, ask, say } = globalThis.tautline;
  const workers = navigator.serviceWorker;
  const root = document.documentElement;
  // Without a worker (a private window, an old browser) the app still runs while it is online.
  if (!workers) return;

  const loaded = new Promise((done) => {
    if (document.readyState === "complete") done();
    else addEventListener("load", done);
  });
  const idle = () => new Promise((done) => {
    if (globalThis.requestIdleCallback) requestIdleCallback(done, { timeout: 2_000 });
    else setTimeout(done, 200);
  });

  async function begin() {
    await Promise.all([started, loaded]);
    if (version) ask({ type: "started" });
    if (root.hasAttribute("data-older")) sayOlder();
    await idle();
    watch(await workers.register(new URL("sw.js", base).href, { updateViaCache: "none" }));
  }

  // A new version waits until the person takes it. That one waits stands as an attribute of the
  // page, so that a screen needs no code to show its offer: style alone does.
  let switching = false;
  function watch(registration) {
    const look = () => root.toggleAttribute("data-newer", !!registration.waiting);
    const follow = () => registration.installing?.addEventListener("statechange", look);
    registration.addEventListener("updatefound", follow);
    follow();
    look();
    addEventListener("click", (event) => {
      if (!event.target.closest?.("[data-switch]") || !registration.waiting) return;
      switching = true;
      registration.waiting.postMessage({ type: "switch" });
    });
    // An installed app may stay open for days: it asks anew when it is looked at again.
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => {});
    });
  }

  // On the very first visit the worker takes the page over, and it is of that version. Later, a new one
  // was chosen: here, or in another window, and then this one must not go on for long as the old one.
  let controlled = !!workers.controller;
  workers.addEventListener("controllerchange", () => {
    if (!controlled) controlled = true;
    else if (switching || document.hidden) location.reload();
    else sayElsewhere();
  });

  function sayElsewhere() {
    say({
      id: "elsewhere", role: "alert",
      texts: ["The new version was taken in another window. Load this one again: everything is kept."],
      actions: [["Load it again", () => location.reload()], ["Later", (box) => box.remove()]],
    });
    document.addEventListener("visibilitychange", () => { if (document.hidden) location.reload(); });
  }

  function sayOlder() {
    say({
      id: "older", role: "status",
      texts: ["The new version did not start on this device, so the one before goes on. Nothing you saved is lost. The next version will be offered as always."],
      actions: [
        ["Fine", (box) => box.remove()],
        ["Try the new one again", async () => { await ask({ type: "retry" }); location.reload(); }],
      ],
    });
  }

  begin().catch(() => {});
})();
