// Three browsers behind one thin interface, each Debian's own: Chromium, Firefox over WebDriver BiDi, and
// WebKit over W3C WebDriver with a display of its own.
//
//   DRIVERS   name → () → driver; missing(name) → the Debian package that is not there, or ""
//   driver.goto(url), .reload(), .evaluate(fn, ...args), .click(x, y), .type(text), .press(key),
//         .size(width, height), .shot(path), .version, .errors, .close()
//
// Keys are Enter, Tab and " ". evaluate waits for a promise. errors are what the page threw, where the
// browser tells.
import { spawn } from "node:child_process";
import { accessSync } from "node:fs";
import { mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { delimiter, join } from "node:path";
import { tmpdir } from "node:os";
import { setTimeout as pause } from "node:timers/promises";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { FLAGS, findChromium } from "../../harness.mjs";

const HEAVY = createRequire(new URL("../../heavy/package.json", import.meta.url));
// A package that only `make trust` installs.
export async function heavy(name) {
  let path;
  try {
    path = HEAVY.resolve(name);
  } catch {
    throw new Error(`${name} is not there: \`npm ci\` in tests/browser/heavy brings it, as \`make trust\` does.`);
  }
  return import(pathToFileURL(path).href);
}

function onPath(name) {
  for (const folder of process.env.PATH.split(delimiter)) {
    try {
      accessSync(join(folder, name));
      return join(folder, name);
    } catch {
      // Not in this folder.
    }
  }
  return "";
}

const PHONE = { width: 360, height: 740 };

async function chromiumDriver() {
  const browser = await chromium.launch({ executablePath: findChromium(), args: FLAGS });
  const page = await browser.newPage({ viewport: PHONE, locale: "en-GB" });
  const errors = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  return {
    version: `Chromium ${browser.version()}`,
    errors,
    goto: (url) => page.goto(url),
    reload: () => page.reload(),
    evaluate: (fn, ...args) => page.evaluate(`(${fn})(...${JSON.stringify(args)})`),
    click: (x, y) => page.mouse.click(x, y),
    type: (text) => page.keyboard.type(text),
    press: (key) => page.keyboard.press(key),
    size: (width, height) => page.setViewportSize({ width, height }),
    shot: (path) => page.screenshot({ path }),
    close: () => browser.close(),
  };
}

async function firefoxDriver() {
  const { default: puppeteer } = await heavy("puppeteer-core");
  const saved = await mkdtemp(join(tmpdir(), "firefox-"));
  const browser = await puppeteer.launch({
    browser: "firefox",
    executablePath: onPath("firefox-esr"),
    headless: true,
    defaultViewport: PHONE,
    // Asks for nothing but the app.
    extraPrefsFirefox: {
      "intl.accept_languages": "en-GB",
      "network.captive-portal-service.enabled": false,
      "network.connectivity-service.enabled": false,
      "browser.download.folderList": 2,
      "browser.download.dir": saved,
    },
  });
  const page = await browser.newPage();
  const errors = [];
  page.on("pageerror", (error) => errors.push(String(error)));
  return {
    version: (await browser.version()).replace("/", " ").replace(/^f/, "F"),
    errors,
    goto: (url) => page.goto(url),
    reload: () => page.reload(),
    evaluate: (fn, ...args) => page.evaluate(fn, ...args),
    click: (x, y) => page.mouse.click(x, y),
    type: (text) => page.keyboard.type(text),
    press: (key) => page.keyboard.press(key),
    size: (width, height) => page.setViewport({ width, height }),
    shot: (path) => page.screenshot({ path }),
    close: async () => {
      await browser.close();
      await rm(saved, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    },
  };
}

async function miniBrowser() {
  for (const machine of await readdir("/usr/lib")) {
    for (const api of ["webkit2gtk-4.1", "webkit2gtk-4.0", "webkitgtk-6.0"]) {
      const path = join("/usr/lib", machine, api, "MiniBrowser");
      try {
        accessSync(path);
        return path;
      } catch {
        // Of another version, or another machine.
      }
    }
  }
  return "";
}

const freePort = () => new Promise((found) => {
  const server = createServer().listen(0, "127.0.0.1", () => {
    const { port } = server.address();
    server.close(() => found(port));
  });
});

// An X server that picks a number of its own.
async function display() {
  const server = spawn(onPath("Xvfb"), ["-displayfd", "3", "-screen", "0", "1400x1000x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  const number = await new Promise((told, failed) => {
    server.stdio[3].once("data", (data) => told(String(data).trim()));
    server.once("exit", () => failed(new Error("Xvfb did not start.")));
  });
  return { server, name: `:${number}` };
}

// The keys of W3C WebDriver, by code point.
const KEYS = { Enter: "\uE007", Tab: "\uE004", " ": " " };

async function webkitDriver() {
  const { server, name } = await display();
  const home = await mkdtemp(join(tmpdir(), "webkit-"));
  // Its bar is wider than a phone.
  await mkdir(join(home, "gtk-3.0"));
  await writeFile(join(home, "gtk-3.0/gtk.css"), "* { min-width: 0; padding: 0; margin: 0; font-size: 4px; }");
  const port = await freePort();
  const env = { ...process.env, DISPLAY: name, XDG_CONFIG_HOME: home, XDG_DATA_HOME: home, XDG_CACHE_HOME: home, LANG: "en_GB.UTF-8", GDK_BACKEND: "x11" };
  const driver = spawn(onPath("WebKitWebDriver"), [`--port=${port}`], { env, stdio: "ignore" });
  let session = "";
  const ask = async (method, path, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}${session}${path}`, { method, body: body && JSON.stringify(body) });
    const { value } = await answer.json();
    if (value?.error) throw new Error(`${value.error}: ${value.message}`);
    return value;
  };
  const close = async () => {
    await ask("DELETE", "").catch(() => {});
    driver.kill();
    server.kill();
    await rm(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
  try {
    for (let tries = 0; ; tries += 1) {
      try {
        await ask("GET", "/status");
        break;
      } catch (error) {
        if (tries > 50) throw error;
        await pause(100);
      }
    }
    const { sessionId, capabilities } = await ask("POST", "/session", {
      capabilities: { alwaysMatch: { "webkitgtk:browserOptions": { binary: await miniBrowser(), args: ["--automation"] } } },
    });
    session = `/session/${sessionId}`;
    const evaluate = (fn, ...args) => ask("POST", "/execute/sync", { script: `return (${fn}).apply(null, arguments)`, args });
    // The window is larger than the page in it.
    const size = async (width, height) => {
      for (let i = 0; i < 3; i += 1) {
        const rect = await ask("GET", "/window/rect");
        const [w, h] = await evaluate(() => [innerWidth, innerHeight]);
        if (w === width && h === height) return;
        await ask("POST", "/window/rect", { width: rect.width + width - w, height: rect.height + height - h });
        await pause(200);
      }
    };
    const actions = (of) => ask("POST", "/actions", { actions: [of] });
    const keys = (all) => actions({
      type: "key", id: "keys", actions: [...all].flatMap((value) => [{ type: "keyDown", value }, { type: "keyUp", value }]),
    });
    let clicked = 0;
    await ask("POST", "/url", { url: "about:blank" });
    await size(PHONE.width, PHONE.height);
    return {
      version: `WebKitGTK ${capabilities.browserVersion}`,
      errors: [],
      goto: (url) => ask("POST", "/url", { url }),
      reload: () => ask("POST", "/refresh", {}),
      evaluate,
      click: async (x, y) => {
        // Two soon after each other are one double click to it, whose second half the chair does not take.
        await pause(Math.max(0, clicked + 600 - Date.now()));
        await actions({
          type: "pointer", id: "mouse", parameters: { pointerType: "mouse" },
          actions: [
            { type: "pointerMove", duration: 0, x: Math.round(x), y: Math.round(y), origin: "viewport" },
            { type: "pointerDown", button: 0 }, { type: "pointerUp", button: 0 },
          ],
        });
        clicked = Date.now();
      },
      type: keys,
      press: (key) => keys([KEYS[key] ?? key]),
      size,
      shot: async (path) => writeFile(path, Buffer.from(await ask("GET", "/screenshot"), "base64")),
      close,
    };
  } catch (error) {
    await close();
    throw error;
  }
}

export const DRIVERS = { Chromium: chromiumDriver, Firefox: firefoxDriver, WebKit: webkitDriver };

export async function missing(name) {
  if (name === "Firefox" && !onPath("firefox-esr")) return "firefox-esr";
  if (name === "WebKit" && !onPath("WebKitWebDriver")) return "webkit2gtk-driver";
  if (name === "WebKit" && !(await miniBrowser())) return "libwebkit2gtk-4.1-0";
  if (name === "WebKit" && !onPath("Xvfb")) return "xvfb";
  return "";
}
