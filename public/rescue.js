// Before everything else: if the app can't start, or stops, this says so in plain words, outside the
// app, and lets the person keep all that was saved. It needs nothing of the app, not even WebAssembly.
//
// globalThis.tautline, for the two scripts after it:
//   started          settles once the first screen stands
//   version          which version the offline worker answered this page with; undefined without it
//   ask(message)     → the worker's answer, or {} where there is none
//   say(…)           shows a box, see below
//   spanish          whether Spanish is in force
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

  const root = document.documentElement;
  const here = new URL("./", document.currentScript.src).href;
  let stands = false;

  // ---- What is said here, in the language in force. ----

  const SPANISH = {
    "Starting…": "Abriendo…",
    "This browser does not let the page read what it keeps. Allow site data for this address, then load it again.":
      "Este navegador no deja que la página lea lo que guarda. Permite los datos de sitio para esta dirección y vuelve a cargarla.",
    "Saved as tautline-rescue.json. “Everything out and back” takes it in again.":
      "Guardado como tautline-rescue.json. «Sacar y recuperar todo» lo vuelve a cargar.",
    "Save all data as a file": "Guardar todos los datos en un archivo",
    "There is no version before this one on this device.": "En este dispositivo no hay una versión anterior a esta.",
    "Downloading…": "Descargando…",
    "It could not be downloaded. Is there a network? What was here is still here.":
      "No se pudo descargar. ¿Hay red? Lo que estaba aquí sigue aquí.",
    "Tautline stopped. Nothing you saved is lost. Reload to go on.":
      "Tautline se detuvo. Nada de lo que guardaste se ha perdido. Recarga para seguir.",
    "Reload": "Recargar",
    "Try again": "Volver a intentarlo",
    "Go back to the version before": "Volver a la versión anterior",
    "Download it again": "Descargar de nuevo",
    "Tautline could not start. Nothing you saved is lost.":
      "Tautline no pudo abrirse. Nada de lo que guardaste se ha perdido.",
    "A part of it is damaged or did not arrive.": "Una parte está dañada o no llegó.",
    "Something in Tautline went wrong. Nothing you saved is lost. If the screen does not answer any more, reload.":
      "Algo falló en Tautline. Nada de lo que guardaste se ha perdido. Si la pantalla ya no responde, recarga.",
    "Go on": "Seguir",
    "Something went wrong while it was starting.": "Algo falló mientras se abría.",
    "It stopped while it was starting.": "Se detuvo mientras se abría.",
    "It takes far longer than it should.": "Tarda mucho más de lo normal.",
    "This browser has no WebAssembly, which Tautline needs, or it is switched off, as some phones do in a lockdown mode.":
      "Este navegador no tiene WebAssembly, que Tautline necesita, o está desactivado, como hacen algunos teléfonos en un modo de bloqueo.",
  };

  // As the app chooses it: what the settings say, else the device. Settings that don't read are no reason
  // to say nothing.
  function isSpanish() {
    try {
      const usage = JSON.parse(localStorage.getItem("tautline.settings"))?.usage;
      return usage ? usage === "es" : /^es(?:-|$)/i.test(navigator.language);
    } catch {
      return false;
    }
  }

  const spanish = isSpanish();
  const tr = (text) => (spanish && SPANISH[text]) || text;

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
      tell(tr("This browser does not let the page read what it keeps. Allow site data for this address, then load it again."));
      return;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([data], { type: "application/json" }));
    link.download = "tautline-rescue.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    tell(tr("Saved as tautline-rescue.json. “Everything out and back” takes it in again."));
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
    if (spanish) box.lang = "es";
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
  const save = [tr("Save all data as a file"), saveFile];

  async function goBack() {
    const { back } = await ask({ type: "back" });
    if (back) reload();
    else tell(tr("There is no version before this one on this device."));
  }

  async function downloadAgain() {
    tell(tr("Downloading…"));
    const { well } = await ask({ type: "again" });
    if (well) reload();
    else tell(tr("It could not be downloaded. Is there a network? What was here is still here."));
  }

  // It runs no more. `stood`: after its first screen.
  async function showStopped(why) {
    if (stands) {
      say({
        id: "stopped", role: "alert",
        texts: [tr("Tautline stopped. Nothing you saved is lost. Reload to go on.")],
        actions: [[tr("Reload"), reload], save],
      });
      return;
    }
    const { before, from } = await ask({ type: "which" });
    if (stands) return;
    const actions = [[tr("Try again"), reload]];
    if (before) actions.push([tr("Go back to the version before"), goBack]);
    if (from) actions.push([tr("Download it again"), downloadAgain]);
    say({
      id: "stopped", role: "alert", whole: true,
      texts: [tr("Tautline could not start. Nothing you saved is lost."), tr(why)],
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
      texts: [tr("Something in Tautline went wrong. Nothing you saved is lost. If the screen does not answer any more, reload.")],
      actions: [[tr("Reload"), reload], save, [tr("Go on"), (box) => box.remove()]],
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

  if (spanish) {
    // It stands in the page as soon as its body is read.
    new MutationObserver((_, watch) => {
      const starting = document.getElementById("starting");
      if (!starting) return;
      watch.disconnect();
      starting.lang = "es";
      starting.textContent = tr(starting.textContent);
    }).observe(root, { childList: true, subtree: true });
  }

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

  globalThis.tautline = { started, ask, say, spanish, version: root.dataset.version };
})();
