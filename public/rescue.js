// Before everything else: if the app can't start, or stops, this says so in plain words, outside the
// app, and lets the person keep all that was saved. It needs nothing of the app, not even WebAssembly.
//
// globalThis.tautline, for the two scripts after it:
//   started          settles once the first screen stands
//   version          which version the offline worker answered this page with; undefined without it
//   ask(message)     → the worker's answer, or {} where there is none
//   say(…)           shows a box, see below
(() => {
  "use strict";

  // How long the first screen may take once the page has loaded, ms. Judgement: from the worker's cache
  // it takes half a second on a slow phone, over a slow network half a minute.
  const LONGEST = 8_000;
  const LONGEST_FROM_AFAR = 30_000;
  // After a fault that need not be the end, ms. Judgement.
  const DOUBT = 3_000;
  // The longest that the worker's answer is waited for, ms. Judgement.
  const ANSWER = 5_000;

  const SAFE = "Nothing you saved is lost.";
  const root = document.documentElement;
  const here = new URL("./", document.currentScript.src).href;
  let stands = false;

  // ---- The worker, as far as it is needed here. ----

  function ask(message) {
    const worker = navigator.serviceWorker?.controller;
    if (!worker) return Promise.resolve({});
    return new Promise((done) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = ({ data }) => done(data ?? {});
      setTimeout(done, ANSWER, {});
      worker.postMessage({ ...message, version: root.dataset.version }, [port2]);
    });
  }

  // ---- Everything the app keeps, as the text it was stored as. ----

  function savedData() {
    const keys = {};
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith("tautline")) keys[key] = localStorage.getItem(key);
    }
    return JSON.stringify({ kind: "tautline-rescue", keys }, null, 1);
  }

  function saveFile() {
    let data;
    try {
      data = savedData();
    } catch {
      tell("This browser does not let the page read what it keeps. Allow site data for this address, then load it again.");
      return;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([data], { type: "application/json" }));
    link.download = "tautline-rescue.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    tell("Saved as tautline-rescue.json. “Everything out and back” takes it in again.");
  }

  // ---- The box. System colours and styles set here: readable whatever state the page is in. ----

  function element(tag, text, style) {
    const made = document.createElement(tag);
    made.textContent = text;
    Object.assign(made.style, style);
    return made;
  }

  // Shows `texts`, a paragraph each, and `actions`, [words, what to do] each; over the whole page if
  // `whole`. A box that stands stays, unless it is to go for this one.
  function say({ id, role, whole, texts, actions }) {
    if (document.getElementById(id)) return;
    const box = element("div", "", {
      position: "fixed", inset: whole ? "0" : "auto 0 0 0", zIndex: "2147483647", boxSizing: "border-box",
      maxHeight: "100%", overflow: "auto", borderTop: whole ? "0" : "2px solid",
      padding: `${whole ? "20vh" : "1rem"} 1rem max(1rem, env(safe-area-inset-bottom))`,
      font: "1.125rem/1.5 system-ui, sans-serif", color: "CanvasText", background: "Canvas",
    });
    box.id = id;
    box.setAttribute("role", role);
    for (const text of texts) {
      box.append(element("p", text, { margin: "0 auto 0.5rem", maxWidth: "36rem" }));
    }
    const row = element("div", "", { margin: "0 auto", maxWidth: "36rem" });
    for (const [words, action] of actions) {
      const button = element("button", words, {
        font: "inherit", minHeight: "3rem", padding: "0.25rem 1rem", margin: "0.5rem 0.75rem 0 0",
        color: "ButtonText", background: "ButtonFace", border: "1px solid", borderRadius: "0.5rem",
      });
      button.type = "button";
      button.addEventListener("click", () => action(box));
      row.append(button);
    }
    const said = element("p", "", { margin: "0.5rem auto 0", maxWidth: "36rem" });
    said.setAttribute("role", "status");
    box.append(row, said);
    // Outside body, so that nothing the broken app still does to body can take it away.
    root.append(box);
    // What is come to by keys is not hidden behind it.
    root.style.scrollPaddingBottom = `${box.offsetHeight}px`;
    if (document.body) document.body.style.paddingBottom = `${box.offsetHeight}px`;
    document.getElementById("starting")?.remove();
  }

  function tell(text) {
    const said = document.querySelector("#stopped [role=status], #faulty [role=status]");
    if (said) said.textContent = text;
  }

  // ---- What can be done about it. ----

  const reload = () => location.reload();
  const save = ["Save all data as a file", saveFile];

  async function goBack() {
    const { back } = await ask({ type: "back" });
    if (back) reload();
    else tell("There is no version before this one on this device.");
  }

  async function downloadAgain() {
    tell("Downloading…");
    const { well } = await ask({ type: "again" });
    if (well) reload();
    else tell("It could not be downloaded. Is there a network? What was here is still here.");
  }

  // It runs no more. `stood`: after its first screen.
  async function showStopped(why) {
    if (stands) {
      say({
        id: "stopped", role: "alert",
        texts: [`Tautline stopped. ${SAFE} Reload to go on.`],
        actions: [["Reload", reload], save],
      });
      return;
    }
    const { before, from } = await ask({ type: "which" });
    if (stands) return;
    const actions = [["Try again", reload]];
    if (before) actions.push(["Go back to the version before", goBack]);
    if (from) actions.push(["Download it again", downloadAgain]);
    say({
      id: "stopped", role: "alert", whole: true,
      texts: [`Tautline could not start. ${SAFE}`, why],
      actions: [...actions, save],
    });
  }

  // A part is damaged or missing: trying again can't help, so the version before is taken at once.
  async function showBroken() {
    if (stands) return;
    const { back } = await ask({ type: "failed" });
    if (back) reload();
    else showStopped("A part of it is damaged or did not arrive.");
  }

  // A script threw, and the app may well go on.
  function showFaulty() {
    say({
      id: "faulty", role: "alert",
      texts: [`Something in Tautline went wrong. ${SAFE} If the screen does not answer any more, reload.`],
      actions: [["Reload", reload], save, ["Go on", (box) => box.remove()]],
    });
  }

  // A fault before the first screen that need not be the end.
  function doubt() {
    setTimeout(() => { if (!stands) showStopped("Something went wrong while it was starting."); }, DOUBT);
  }

  // ---- What is watched. ----

  const wasm = globalThis.WebAssembly;

  const isOfWasm = (error) => !!wasm
    && [wasm.RuntimeError, wasm.CompileError, wasm.LinkError].some((kind) => error instanceof kind);
  // A panic in Rust arrives as a RuntimeError; too deep a call as one of the last two.
  const isTrap = (error) => isOfWasm(error) || error?.name === "InternalError"
    || (error instanceof RangeError && /call stack/i.test(error.message));
  // Parts that can't even be read: no other try helps.
  const isBroken = (error) => error instanceof SyntaxError
    || (isOfWasm(error) && !(error instanceof wasm.RuntimeError));
  const isOurs = (error) => String(error?.stack).includes(here);

  function faulty(error) {
    if (!stands && isBroken(error)) showBroken();
    else if (isTrap(error)) showStopped("It stopped while it was starting.");
    else if (!stands) doubt();
    else if (isOurs(error)) showFaulty();
  }

  addEventListener("error", (event) => {
    const { target } = event;
    if (target instanceof HTMLScriptElement) {
      // The scripts that look for the app's folder are found in one place at most.
      if (!stands && target.src.startsWith(here) && !target.src.endsWith("/climb.js")) showBroken();
    } else if (isOfWasm(event.error) || (event.error && (!event.filename || event.filename.startsWith(here)))) {
      faulty(event.error);
    }
  }, true);
  addEventListener("unhandledrejection", (event) => faulty(event.reason));

  let begun;
  const started = new Promise((done) => { begun = done; });
  const watched = new MutationObserver(() => {
    if (!document.querySelector("#app h1")) return;
    watched.disconnect();
    stands = true;
    // It was only late.
    document.getElementById("stopped")?.remove();
    begun();
  });
  watched.observe(root, { childList: true, subtree: true });

  addEventListener("load", () => {
    const longest = navigator.serviceWorker?.controller ? LONGEST : LONGEST_FROM_AFAR;
    setTimeout(() => { if (!stands) showStopped("It takes far longer than it should."); }, longest);
  });

  if (!wasm) {
    showStopped("This browser has no WebAssembly, which Tautline needs, or it is switched off, as some phones do in a lockdown mode.");
  }

  globalThis.tautline = { started, ask, say, version: root.dataset.version };
})();
