// The offline worker as the page sees it: registered once the first screen stands, so that what it
// fetches takes nothing from that; told that this version starts; and a new version, which waits.
(() => {
  "use strict";

  const { base, started, version, ask, say, spanish } = globalThis.tautline;
  const workers = navigator.serviceWorker;
  const root = document.documentElement;
  // Without a worker (a private window, an old browser) the app still runs while it is online.
  if (!workers) return;

  const SPANISH = {
    "The new version was taken in another window. Load this one again: everything is kept.":
      "La versión nueva se activó en otra ventana. Vuelve a cargar esta: todo está guardado.",
    "Load it again": "Volver a cargar",
    "Later": "Más tarde",
    "The new version did not start on this device, so the one before goes on. Nothing you saved is lost. The next version will be offered as always.":
      "La versión nueva no se abrió en este dispositivo, así que sigue la anterior. Nada de lo que guardaste se ha perdido. La próxima versión se ofrecerá como siempre.",
    "Fine": "Bien",
    "Try the new one again": "Probar otra vez la nueva",
  };
  const tr = (text) => (spanish && SPANISH[text]) || text;

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
      texts: [tr("The new version was taken in another window. Load this one again: everything is kept.")],
      actions: [[tr("Load it again"), () => location.reload()], [tr("Later"), (box) => box.remove()]],
    });
    document.addEventListener("visibilitychange", () => { if (document.hidden) location.reload(); });
  }

  function sayOlder() {
    say({
      id: "older", role: "status",
      texts: [tr("The new version did not start on this device, so the one before goes on. Nothing you saved is lost. The next version will be offered as always.")],
      actions: [
        [tr("Fine"), (box) => box.remove()],
        [tr("Try the new one again"), async () => { await ask({ type: "retry" }); location.reload(); }],
      ],
    });
  }

  // Where the browser offers to put the app onto the home screen, it does so when asked, not by itself.
  let offer;
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offer = event;
    root.toggleAttribute("data-installs", true);
  });
  addEventListener("click", (event) => {
    if (!offer || !event.target.closest?.("[data-install]")) return;
    root.toggleAttribute("data-installs", false);
    offer.prompt()?.catch?.(() => {});
    offer = undefined;
  });

  begin().catch(() => {});
})();
