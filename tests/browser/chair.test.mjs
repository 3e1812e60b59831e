// At the chair: by keys, by roles and names, at every size; what came out otherwise; what the phone does.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { atChair, done, face, faces, leave, newExample, section, toChair, toPlan, unpacked } from "./flow.mjs";
import { shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const SIZES = [[360, 740], [320, 568], [768, 1024], [1024, 768]];

// The walk as it is kept.
const kept = async (page) => unpacked(await page.evaluate(() => {
  const key = Object.keys(localStorage).find((key) => key.startsWith("tautline.cut."));
  return localStorage.getItem(key);
})).walk;
const at = async (page) => (await section(page)).place;
const atSection = (page, place) => page.getByText(new RegExp(`^Section ${place} of`)).waitFor();

test("keys of a keyboard, a presenter and a foot switch walk to the end", async () => {
  const { context, page, seen } = await app.newPhone();
  await atChair(app, page);
  await page.locator(".chair-seen").focus();
  const keys = ["PageDown", "ArrowRight", "ArrowDown", " ", "Enter"];
  const { count } = await section(page);
  for (let place = 2; place <= count; place += 1) {
    await page.keyboard.press(keys[place % keys.length]);
    await atSection(page, place);
  }
  for (const [i, key] of ["PageUp", "ArrowLeft", "ArrowUp"].entries()) {
    await page.keyboard.press(key);
    await atSection(page, count - 1 - i);
  }
  // A key held down is one press; one with a modifier is the browser's.
  await page.keyboard.down("PageDown");
  await page.keyboard.down("PageDown");
  await page.keyboard.down("PageDown");
  await page.keyboard.up("PageDown");
  assert.equal(await at(page), count - 2);
  await page.keyboard.press("Alt+ArrowUp");
  assert.equal(await at(page), count - 2);
  for (let place = count - 1; place <= count; place += 1) {
    await page.keyboard.press("PageDown");
    await atSection(page, place);
  }
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Planned and cut" }).waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("the whole walk with Tab, Enter and Space alone: a value, a pause, the overview, the end", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  const press = async (role, name, key = "Enter") => {
    const wanted = page.getByRole(role, { name, exact: typeof name === "string" });
    for (let i = 0; i < 80; i += 1) {
      await page.keyboard.press("Tab");
      if (await wanted.evaluateAll((all) => all.includes(document.activeElement))) {
        return page.keyboard.press(key);
      }
    }
    throw new Error(`${name} is not reached with Tab`);
  };
  await press("button", "Result", " ");
  await press("button", /^Shorter/, "Enter");
  await page.getByText(/later sections? becomes?|Nothing later/).waitFor();
  await press("button", "Keep the plan");
  await page.getByText("The plan stays as it was").waitFor();
  await press("button", "Follow it");
  await press("button", "Pause");
  await page.getByRole("heading", { name: "Paused" }).waitFor();
  await page.keyboard.press("PageDown");
  await page.getByRole("heading", { name: "Paused" }).waitFor();
  await press("button", "Go on", " ");
  await press("button", "Overview");
  await page.getByRole("heading", { name: "The whole cut" }).waitFor();
  await press("button", "Back to the section");
  const { count } = await section(page);
  await press("button", /^Done/);
  for (let place = 2; place <= count; place += 1) {
    await atSection(page, place);
    await page.keyboard.press("Enter");
  }
  await page.getByRole("heading", { name: "Planned and cut" }).waitFor();
  await context.close();
});

test("the whole walk by roles and names alone, as a screen reader has it", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  const said = () => page.getByRole("region", { name: "The section" }).ariaSnapshot();
  const press = (name) => page.getByRole("button", { name }).click();
  let checks = 0;
  for (let place = 1; ; place += 1) {
    const heading = page.getByRole("heading", { level: 1 });
    await atSection(page, place);
    if ((await heading.innerText()).startsWith("Planned")) break;
    const length = await said();
    assert.match(length, /heading "(Left|Middle|Right) \d+ of \d+.*" \[level=1\]/);
    const check = length.includes("Both sides should be");
    checks += check ? 1 : 0;
    assert.match(length, check ? /Both sides should be/ : /Cut at, longest hair/);
    assert.match(length, /\d+(\.5)? ?cm/);
    if (!check) assert.match(length, /term: Falls to, dry[\s\S]*definition/);
    assert.match(length, /term: Hold[\s\S]*definition/);
    assert.match(length, /img ".*, as it is held"/);
    if (place % 7 === 1) {
      await press("How");
      const how = await said();
      for (const term of ["Guide", check ? "Look" : "Cut", "Tension"]) assert.match(how, new RegExp(`term: ${term}`));
      await press("Result");
      assert.match(await said(), /textbox "(Came out at|Measured)/);
      await page.getByRole("button", { name: /^Shorter/ }).first().click();
      await page.getByText(/Take it back/).first().waitFor();
    }
    await press(/^Done/);
    if (await page.getByRole("heading", { name: "Planned and cut" }).count()) break;
    if (place > 60) throw new Error("no end");
    await page.waitForFunction((was) => !document.body.innerText.includes(was), `Section ${place} of`);
    if (await page.getByRole("heading", { name: "Planned and cut" }).count()) break;
  }
  assert.ok(checks >= 2, `${checks} checks`);
  await context.close();
});

// 20 and 30 minutes of arc at 80 cm, in millimetres; a phone's pixel is about 1/160 inch.
const mm = (minutes) => 800 * Math.tan((minutes / 60) * (Math.PI / 180));
const PIXEL = 25.4 / 160;

// The height of capitals (or digits) of every visible element, in millimetres.
const heights = (page, selector, letter) => page.$$eval(selector, (all, [letter, pixel]) => {
  const pen = document.createElement("canvas").getContext("2d");
  return all.filter((e) => e.checkVisibility()).map((e) => {
    const style = getComputedStyle(e);
    pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    return [e.textContent, pen.measureText(letter).actualBoundingBoxAscent * pixel];
  });
}, [letter, PIXEL]);

for (const colorScheme of ["light", "dark"]) {
  test(`every face at every size, ${colorScheme}: legible from 80 cm, large to press, axe finds nothing`, async () => {
    for (const [width, height] of SIZES) {
      const { context, page, seen } = await app.newPhone({ viewport: { width, height }, colorScheme });
      const name = (what) => `chair-${width}-${colorScheme}-${what}`;
      const look = async (what) => {
        assert.deepEqual(await violations(page), [], name(what));
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        assert.ok(wide <= width, `${name(what)} is ${wide} px wide`);
        const small = await page.$$eval("button, a[href], input, summary", (all) => all
          .filter((e) => e.checkVisibility())
          .map((e) => [e.textContent || e.id, (e.closest("label") ?? e).getBoundingClientRect()])
          .filter(([, box]) => box.height > 0 && (box.height < 48 || box.width < 48))
          .map(([text, box]) => `${text} ${box.width} × ${box.height}`));
        assert.deepEqual(small, [], name(what));
        await shot(page, name(what));
      };
      await atChair(app, page, { stop: true });
      await look("before");
      await page.getByRole("button", { name: "Start" }).click();
      const { count } = await section(page);
      for (let place = 1; place <= count; place += 1) {
        for (const text of await heights(page, ".far", "H")) {
          assert.ok(text[1] >= mm(20), `${name(text[0])}: ${text[1].toFixed(2)} mm`);
        }
        for (const text of await heights(page, ".target-number", "8")) {
          assert.ok(text[1] >= mm(30), `${name(text[0])}: ${text[1].toFixed(2)} mm`);
        }
        for (const press of [/^Back$/, /^Done/]) {
          const box = await page.getByRole("button", { name: press }).boundingBox();
          assert.ok(box.height >= 72 && box.width >= 90, `${name(press)} ${box.width} × ${box.height}`);
        }
        // What is needed stands on the screen at once: nothing has to be scrolled to.
        const hidden = await page.$$eval(".c-where, .c-number, .c-falls, .c-hold", (all) => {
          const frame = document.querySelector(".chair-seen").getBoundingClientRect();
          return all.filter((e) => e.checkVisibility()).filter((e) => {
            const box = e.getBoundingClientRect();
            return box.bottom > frame.bottom + 1 || box.right > frame.right + 1;
          }).map((e) => e.className);
        });
        assert.deepEqual(hidden, [], `${name("")} section ${place}`);
        if (place === 1 || place === 5 || place === count) {
          for (const f of await faces(page)) {
            await face(page, f);
            await look(`${place}-${f}`);
          }
        }
        if (place < count) await done(page);
      }
      await page.getByRole("button", { name: "Overview" }).click();
      await look("overview");
      await page.getByRole("button", { name: "Back to the section" }).click();
      await page.getByRole("button", { name: "Pause" }).click();
      await look("paused");
      assert.deepEqual(seen.errors, []);
      await context.close();
    }
  });
}

test("a wrong Done and a double tap are undone in one press, to the same walk", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  await done(page);
  await done(page);
  const { place } = await section(page);
  const before = await kept(page);
  const box = await page.getByRole("button", { name: /^Done/ }).boundingBox();
  await page.mouse.dblclick(box.x + box.width / 2, box.y + box.height / 2);
  await atSection(page, place + 1);
  assert.equal(await at(page), place + 1, "the second half of a double tap counts for nothing");
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await atSection(page, place);
  const after = await kept(page);
  const counted = (walk) => walk.done.filter((entry) => !entry.open);
  assert.deepEqual(counted(after), counted(before));
  assert.deepEqual(after.at, before.at);
  // And a wrong Back in one press of Done.
  await done(page);
  const there = await kept(page);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await atSection(page, place);
  await done(page);
  assert.deepEqual(await kept(page), there);
  await context.close();
});

test("a guide that came out short moves what it guides, or not if the plan is kept; its twin can match it", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  const numbers = async (upTo) => {
    const all = [];
    for (let i = 0; i < upTo; i += 1) {
      all.push((await section(page)).number);
      await done(page);
    }
    for (let i = 0; i < upTo; i += 1) {
      const place = await at(page);
      await page.getByRole("button", { name: "Back", exact: true }).click();
      await atSection(page, place - 1);
    }
    return all;
  };
  const planned = await numbers(6);
  await face(page, "Result");
  await page.getByRole("button", { name: /^Shorter/ }).click();
  await page.getByRole("button", { name: /^Shorter/ }).click();
  await page.getByText("3 later sections become 1 cm shorter.").waitFor();
  await face(page, "Length");
  const followed = await numbers(6);
  // The left side follows; the right, and the front piece there, stay.
  assert.deepEqual(followed.map((cm, i) => cm - planned[i]), [0, 0, -1, -1, -1, 0]);
  await face(page, "Result");
  await page.getByRole("button", { name: "Keep the plan" }).click();
  await page.getByText("The plan stays as it was.").waitFor();
  await face(page, "Length");
  assert.deepEqual(await numbers(6), planned);
  await face(page, "Result");
  await page.getByRole("button", { name: "Follow it" }).click();
  await done(page);
  await face(page, "Result");
  await page.getByText(/Left side: came out at 17\.\d cm\./).waitFor();
  await page.getByText(/This side: 1 cm longer\./).waitFor();
  await page.getByText(/To compare, comb both to the (chin|nose tip)/).waitFor();
  await page.getByRole("button", { name: /^Match it: cut at 17\.\d cm/ }).click();
  await face(page, "Length");
  await page.getByText("Cut at, to match").waitFor();
  await page.getByText("plan 18.5 cm").waitFor();
  assert.equal((await section(page)).number, followed[0] - 1);
  const right = await numbers(5);
  assert.equal(right[4], planned[5] - 1, "the right side's sections follow the matched guide");
  await context.close();
});

test("too short against what was agreed: what can still be done, in words; nothing of it before the client", async () => {
  const { context, page } = await app.newPhone();
  await newExample(app, page);
  await page.getByRole("link", { name: "Talk it over first" }).click();
  const shortest = page.getByLabel("No hair shorter than");
  await shortest.fill("12 cm");
  await shortest.press("Enter");
  await page.goBack();
  await toPlan(page);
  await toChair(page);
  await face(page, "Result");
  const put = async (text) => {
    await page.getByLabel("Came out at").fill(text);
    await page.getByLabel("Came out at").press("Enter");
  };
  await put("18 cm");
  await page.getByText(/later sections become/).waitFor();
  assert.equal(await page.locator(".mend").count(), 0);
  await put("11 cm");
  const mend = page.locator(".mend");
  await mend.getByText(/hangs \d+(\.\d)? cm shorter than agreed/).waitFor();
  await mend.getByText(/Grown back in about \d+ (weeks|months)/).waitFor();
  await mend.getByText(/Tell the client/).waitFor();
  assert.deepEqual(await violations(page), []);
  await shot(page, "chair-mend");
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByRole("checkbox", { name: /The client looks on/ }).check();
  await page.getByRole("button", { name: "Back to the section" }).click();
  await face(page, "Result");
  await page.getByText(/later sections/).waitFor();
  assert.equal(await mend.count(), 0);
  await context.close();
});

test("the overview: what is cut and what is left on the map, the time, every section to go to", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  for (let i = 0; i < 3; i += 1) await done(page);
  await page.getByRole("button", { name: "Overview" }).click();
  const area = async (name) => {
    const cell = page.getByRole("row", { name }).getByRole("cell");
    return Number.parseFloat(await cell.innerText());
  };
  const [cut, left, short, none] = [await area("✓ Cut"), await area("Left to cut"), await area("Too short"), await area("In no section")];
  assert.ok(cut > 20 && left > cut && short === 0, `${cut} ${left} ${short} ${none}`);
  assert.equal(await page.locator(".m-done").count(), 3);
  await page.getByText("Go to a section").click();
  await page.getByRole("button", { name: /^9\. / }).click();
  await atSection(page, 9);
  await page.getByRole("button", { name: "Overview" }).click();
  assert.equal(await area("✓ Cut"), cut, "a jump cuts nothing");
  await page.getByRole("link", { name: "Planned and cut" }).click();
  await page.getByRole("heading", { name: "Planned and cut" }).waitFor();
  await page.getByRole("link", { name: "Go on at section 9" }).click();
  await atSection(page, 9);
  await context.close();
});

test("before the client's eyes: no names, no notes, no blunt words", async () => {
  const { context, page } = await app.newPhone();
  await atChair(app, page);
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByText("Invented example").waitFor();
  await page.getByRole("checkbox", { name: /The client looks on/ }).check();
  assert.equal(await page.getByText("Invented example").count(), 0);
  assert.equal(await page.getByRole("link", { name: "Your cuts" }).count(), 0);
  await page.reload();
  await atSection(page, 1);
  const { count } = await section(page);
  for (let place = 1; place < count; place += 1) await done(page);
  await face(page, "Result");
  for (let i = 0; i < 8; i += 1) await page.getByRole("button", { name: /^Shorter/ }).first().click();
  await page.getByText("look again").waitFor();
  assert.equal(await page.getByText("too short").count(), 0);
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByRole("checkbox", { name: /The client looks on/ }).uncheck();
  await page.getByRole("button", { name: "Back to the section" }).click();
  await face(page, "Result");
  await page.getByText("too short").waitFor();
  await context.close();
});

test("the screen is kept on and asked for again; sections are read aloud; a done section buzzes", async () => {
  const { context, page } = await app.newPhone();
  await page.addInitScript(() => {
    globalThis.told = { locks: 0, freed: 0, said: [], buzzed: [] };
    const lock = () => ({ released: false, async release() { this.released = true; told.freed += 1; } });
    Object.defineProperty(navigator, "wakeLock", {
      value: { request: async () => { told.locks += 1; return (told.lock = lock()); } },
    });
    navigator.vibrate = (ms) => { told.buzzed.push(ms); return true; };
    speechSynthesis.speak = (utterance) => { told.said.push([utterance.text, utterance.lang]); };
  });
  await atChair(app, page);
  const told = () => page.evaluate(() => globalThis.told);
  assert.equal((await told()).locks, 1);
  // Hidden, the browser takes the lock away; seen again, it is asked for again.
  await page.evaluate(() => {
    globalThis.told.lock.released = true;
    document.dispatchEvent(new Event("visibilitychange", { bubbles: true }));
  });
  await page.waitForFunction(() => globalThis.told.locks === 2);
  assert.deepEqual((await told()).said, [], "silent until asked");
  await done(page);
  assert.deepEqual((await told()).buzzed, [30]);
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByText("The screen stays on while you cut.").waitFor();
  await page.getByRole("checkbox", { name: "Read each section aloud" }).check();
  await page.getByRole("checkbox", { name: /^Buzz/ }).uncheck();
  await page.getByRole("button", { name: "Back to the section" }).click();
  await done(page);
  const { said, buzzed } = await told();
  assert.equal(buzzed.length, 1);
  const [text, language] = said.at(-1);
  assert.equal(language, "en-GB");
  for (const part of [/left/, /[Cc]ut at \d+(\.5)? centimetres/, /[Gg]uide/]) assert.match(text, part);
  await page.getByRole("button", { name: "Say it again" }).click();
  assert.equal((await told()).said.at(-1)[0], text);
  await leave(page);
  assert.equal((await told()).freed, 1);
  await context.close();
});

test("where the phone can't keep its screen on, buzz or speak, it says so and goes on", async () => {
  const { context, page, seen } = await app.newPhone();
  await page.addInitScript(() => {
    for (const name of ["wakeLock", "vibrate"]) {
      Object.defineProperty(Navigator.prototype, name, { value: undefined });
    }
    for (const name of ["speechSynthesis", "SpeechSynthesisUtterance"]) {
      Object.defineProperty(globalThis, name, { value: undefined });
    }
  });
  await atChair(app, page, { stop: true });
  await page.getByText("This browser can't keep the screen on.").waitFor();
  await page.getByRole("button", { name: "Start" }).click();
  await done(page);
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByText("This device can't buzz.").waitFor();
  await page.getByRole("checkbox", { name: "Read each section aloud" }).check();
  await page.getByText("This device has no voice of its own").waitFor();
  await page.getByRole("button", { name: "Back to the section" }).click();
  await done(page);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("half the time is called once, quietly; a pause does not count", async () => {
  const { context, page } = await app.newPhone();
  await page.clock.install({ time: new Date("2026-11-25T09:00:00Z") });
  await atChair(app, page);
  await page.clock.runFor("08:00");
  await done(page);
  await page.getByRole("button", { name: "Pause" }).click();
  await page.clock.runFor("30:00");
  assert.equal(await page.getByText("Half the time").count(), 0);
  await page.getByRole("button", { name: "Go on" }).first().click();
  for (let i = 0; i < 3; i += 1) {
    await page.clock.runFor("07:00");
    await done(page);
  }
  await page.getByRole("status").filter({ hasText: /Half the time has gone\. \d+ of 22/ }).waitFor();
  await page.getByRole("button", { name: "All right" }).click();
  await page.clock.runFor("01:00");
  assert.equal(await page.getByText("Half the time").count(), 0);
  await page.reload();
  await atSection(page, 5);
  await page.clock.runFor("01:00");
  assert.equal(await page.getByText("Half the time").count(), 0, "said once");
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByText(/^(29|30|31) min so far; usually about/).waitFor();
  await context.close();
});
