// A short run of the restless hand at the chair, the same every time.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { start } from "./harness.mjs";
import { chairMonkey } from "./monkey_chair.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

for (const [plan, seed] of [["soft-layers-face-frame", 21], ["square-layers", 22], ["side-swept-fringe", 23]]) {
  test(`whatever is done at the chair with ${plan}, nothing that was put down is lost`, async () => {
    const { done, failures } = await chairMonkey(app, { plan, seed, actions: 120, until: Date.now() + 15000 });
    assert.ok(done > 20, `${done} actions`);
    assert.deepEqual(failures, []);
  });
}
