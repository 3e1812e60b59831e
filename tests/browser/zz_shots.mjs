import { start, open, shot } from "./harness.mjs";
import { newExample, toPlan } from "./flow.mjs";
const app = await start();
for (const [w, h, look] of [[360, 740, "light"], [360, 740, "dark"], [768, 1024, "light"], [1280, 800, "dark"]]) {
  const { context, page } = await app.newPhone({ viewport: { width: w, height: h }, colorScheme: look, deviceScaleFactor: 1.5 });
  await newExample(app, page); await toPlan(page);
  const plan = new URL(page.url()).pathname;
  await open(app, page, plan.replace("/plan", "/see/outline"));
  await page.locator("svg.outline").waitFor();
  await shot(page, `zz-${w}-${look}-left`);
  if (w === 360 && look === "light") {
    const client = await context.newCDPSession(page);
    await client.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    for (const v of ["front", "back", "right", "left", "front", "back", "right", "left", "front"]) {
      const ms = await page.evaluate((v) => new Promise((res) => {
        const t = performance.now();
        const before = document.querySelector("svg.outline");
        const o = new MutationObserver(() => { if (document.querySelector("svg.outline") !== before) { o.disconnect(); const t1 = performance.now(); requestAnimationFrame(() => setTimeout(() => res([t1 - t, performance.now() - t]), 0)); } });
        o.observe(document.querySelector("main"), { childList: true, subtree: true });
        document.querySelector(`input[value="${v}"]`).click();
      }), v);
      console.log(v, ms.map((m) => m.toFixed(1)).join(" / "));
    }
    await client.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
  await page.getByRole("group", { name: "Seen from" }).getByText("Front").click();
  await page.waitForTimeout(300);
  await shot(page, `zz-${w}-${look}-front`);
  await open(app, page, plan.replace("/plan", "/compare"));
  await page.getByLabel("Two").selectOption({ label: "One-length bob, on this head" });
  await page.getByText("Over each other").click();
  await page.locator("svg.outline").waitFor();
  await shot(page, `zz-${w}-${look}-over`);
  await context.close();
}
await app.close();
