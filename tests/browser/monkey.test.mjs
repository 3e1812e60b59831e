// A short run of the restless hand of monkey.mjs, the same every time.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { start } from "./harness.mjs";
import { monkey } from "./monkey.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

for (const [plan, seed] of [["graduated-bob", 11], ["soft-layers-face-frame", 12]]) {
  test(`whatever is done to ${plan}, no screen is blank and nothing is lost`, async () => {
    const { done, failures } = await monkey(app, { plan, seed, actions: 120, until: Date.now() + 18000 });
    assert.ok(done > 20, `${done} actions`);
    assert.deepEqual(failures, []);
  });
}
