// Faults put into a screen on purpose: each look must see its own, else it proves nothing.
import { createRequire } from "node:module";
import { readFile } from "node:fs/promises";
import { open } from "../../harness.mjs";
import { QUIET, pale } from "./ink.mjs";
import * as looks from "./looks.mjs";

const FAULTS = `
  <div style="width: 900px">wide</div>
  <p style="height: 4px; overflow: hidden; position: static">Cut off here</p>
  <p style="margin: 0">Above</p><p style="margin: -1.4em 0 0">Over it</p>
  <input type="text" aria-label="Narrow" value="1234567.5 cm" style="width: 4rem">
  <a href="/" style="display: inline-block; font-size: 8px; line-height: 1">x</a>
  <button style="border: 2px solid color-mix(in srgb, var(--paper), black 8%); background: var(--paper)">Faint</button>
  <p style="transition: color 2s">Slow</p>
  <div><button aria-pressed="true" class="planted">One</button><button aria-pressed="false" class="planted">Two</button></div>
  <style>.planted { border-color: var(--edge) !important; font-weight: 400 !important; box-shadow: none !important } #bare:focus-visible { outline: none }</style>
  <button id="bare">No ring</button>
  <svg role="img" viewBox="0 0 100 20"><text y="10" fill="#ccc" style="fill: color-mix(in srgb, var(--paper), black 20%)">Pale</text></svg>
  <img src="/icons/icon.svg">`;

export async function planted(app) {
  const { context, page } = await app.newPhone({ reducedMotion: "reduce", bypassCSP: true });
  await open(app, page, "/");
  await page.evaluate(looks.COMMON);
  await page.evaluate((faults) => {
    const box = document.createElement("div");
    box.innerHTML = faults;
    document.querySelector("main").append(box);
  }, FAULTS);
  const missed = [];
  let tries = 0;
  const expect = (found, ...wanted) => {
    for (const one of wanted) {
      tries += 1;
      if (!found.some((line) => one.test(line))) missed.push(`${one} is not among ${JSON.stringify(found).slice(0, 200)}`);
    }
  };
  const see = (look, argument) => page.evaluate(look, argument);
  expect(await see(looks.wide), /of 360 px/);
  expect(await see(looks.lost), /Cut off here.*cut off/, /lies over “Over it”/, /Narrow.*cuts/);
  expect(await see(looks.small, 24), /“x”/);
  expect(await see(looks.faint), /Faint/);
  expect(await see(looks.moving), /Slow/);
  expect(await see(looks.alike), /One.*looks like.*Two/);
  const { found, unsaid } = await see(pale, Object.keys(QUIET));
  expect(found, /text/);
  expect(unsaid, /null|undefined/);
  await page.locator("#bare").focus();
  await page.keyboard.press("Shift+Tab");
  await page.keyboard.press("Tab");
  expect([String((await see(looks.focused)).ring < 3)], /true/);
  await page.evaluate(await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
  expect(await page.evaluate(async () => (await globalThis.axe.run()).violations.map(({ id }) => id)), /image-alt/);
  await context.close();
  return { tries, missed };
}
