// Links and files that nobody of ours made: each gets a plain sentence, and what is kept stays byte for byte.
import { writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import { open, start } from "../../harness.mjs";
import { filled } from "../../hosted.mjs";
import { stored } from "../panics/rescued.mjs";
import { watched } from "./watched.mjs";

const packed = (text) => deflateSync(Buffer.from(text)).toString("base64url");
const deep = (n) => "[".repeat(n) + "]".repeat(n);
const LINKS = {
  "nothing": "",
  "no base64": "!!!%%%",
  "base64 of nothing": packed(""),
  "not packed": Buffer.from('{"kind":"tautline-plan"}').toString("base64url"),
  "no JSON": packed("hello"),
  "another kind": packed('{"kind":"other","schema":1}'),
  "a newer schema": packed('{"kind":"tautline-plan","schema":999}'),
  "a plan of nothing": packed('{"kind":"tautline-plan","schema":1,"plan":{}}'),
  "numbers beyond numbers": packed('{"kind":"tautline-plan","schema":1,"plan":{"steps":[{"elevation":1e999}]}}'),
  "nested ten thousand deep": packed(`{"kind":"tautline-plan","schema":1,"plan":${deep(10_000)}}`),
  "a bomb of 50 MB": packed(" ".repeat(50_000_000)),
  "a prototype": packed('{"kind":"tautline-plan","__proto__":{"a":1},"constructor":{"b":2}}'),
  "half a link": packed('{"kind":"tautline-plan","schema":1,"plan":{"steps":[]}}').slice(0, 30),
  "very long": "A".repeat(200_000),
};
const FILES = {
  "nothing": "",
  "one byte": "{",
  "no text": Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x00]),
  "a page": "<!DOCTYPE html><script>alert(1)</script>",
  "null": "null",
  "another kind": '{"kind":"other"}',
  "no schema": '{"kind":"tautline"}',
  "a newer schema": '{"kind":"tautline","schema":2}',
  "lists that are none": '{"kind":"tautline","schema":1,"cuts":{},"records":7}',
  "nested ten thousand deep": `{"kind":"tautline","schema":1,"cuts":[${deep(10_000)}]}`,
  "a key twice": '{"kind":"tautline","kind":"tautline","schema":1}',
  "a plan": '{"kind":"tautline-plan","schema":1}',
  "sealed nonsense": '{"kind":"tautline-sealed","schema":1,"salt":"x","nonce":"y","text":"z"}',
  "a rescue of numbers": '{"kind":"tautline-rescue","keys":{"tautline.cuts":5}}',
  "a rescue of lists": '{"kind":"tautline-rescue","keys":[1,2]}',
  "a million cuts": `{"kind":"tautline","schema":1,"cuts":[${"0,".repeat(1_000_000)}0]}`,
};
// They read, and have nothing that would go over anything: they may be looked at, and nothing more.
const EMPTY = {
  "a rescue of nothing": '{"kind":"tautline-rescue","keys":{}}',
  "a rescue of other apps": '{"kind":"tautline-rescue","keys":{"other":"x","tautline.cuts":"{{{","tautline.cut.a.1":"<b>"}}',
};

async function hostile(full) {
  const app = await start();
  const some = (all) => Object.entries(all).filter((_, i) => full || i % 4 === 0);
  let tries = 0;
  try {
    const { page, seen, broken } = await watched(app);
    await filled(app, page);
    const kept = JSON.stringify(Object.entries(await stored(page)).sort());
    const same = async (what) => {
      if (JSON.stringify(Object.entries(await stored(page)).sort()) !== kept) throw new Error(`${what}: what is kept changed`);
    };
    for (const [name, link] of some(LINKS)) {
      tries += 1;
      await page.goto("about:blank");
      await open(app, page, `/take#p=${link}`);
      await page.getByRole("alert").first().waitFor({ timeout: 20_000 }).catch(() => { throw new Error(`link, ${name}: no sentence`); });
      await same(`link, ${name}`);
    }
    const path = join(tmpdir(), `tautline-hostile-${process.pid}.json`);
    for (const [name, text] of some({ ...FILES, ...EMPTY })) {
      tries += 1;
      await writeFile(path, text);
      await open(app, page, "/keep");
      await page.getByLabel("The file").setInputFiles(path);
      const answer = page.getByRole("alert").or(page.getByLabel("Its passphrase")).or(page.getByRole("button", { name: "Add it to what is here" })).or(page.locator("main").getByText(/nothing in it|no cut|Nothing was changed|empty/i));
      await answer.first().waitFor({ timeout: 20_000 }).catch(async () => { throw new Error(`file, ${name}: no sentence; ${(await page.locator("main").innerText()).slice(0, 300)}`); });
      await same(`file, ${name}`);
    }
    // Written into the address by hand.
    for (const at of ["//elsewhere.invalid/", "https://elsewhere.invalid/", "javascript:alert(1)", "../../..", "%00", "cut/x/walk"]) {
      tries += 1;
      await open(app, page, `/?at=${encodeURIComponent(at)}`);
      if (!page.url().startsWith(`${app.url}/`)) throw new Error(`?at=${at} led to ${page.url()}`);
      await same(`?at=${at}`);
    }
    const errors = seen.errors.length + broken.length;
    return { tries, figure: `${tries} of ${tries} answered, storage byte for byte${errors ? `; ${[...seen.errors, ...broken].join("; ")}` : ""}`, well: errors === 0 };
  } finally {
    await app.close();
  }
}

export const strangers = [
  { name: "hostile links, files, rescue files and addresses", budget: "a sentence each, storage byte-equal", run: hostile },
];
