// The budgets of speed: what a first visit fetches and how long it takes, a start with no network, whole
// plans in the browser against the same natively. A build that misses one fails.
import { firstVisit, offlineStart } from "./speed/start.mjs";
import { bytes } from "./speed/bytes.mjs";
import { longTasks } from "./speed/tasks.mjs";
import { solved } from "./speed/solve.mjs";

export const title = "Speed";

export const measures = [
  {
    name: "all that is fetched until the first screen can be used, brotli",
    budget: "at most 300 kB",
    quick: true,
    run: () => bytes(300_000),
  },
  {
    name: "first visit until New cut can be pressed: slow 4G (1.6 Mbit/s × 0.9, 562 ms each request), CPU slowed 4 ×",
    budget: "at most 2.5 s",
    run: (full) => firstVisit(full ? 7 : 3, 2500),
  },
  {
    name: "start with no network until the list can be used, CPU slowed 4 ×",
    budget: "at most 1.0 s",
    run: (full) => offlineStart("/", full ? 9 : 3, 1000),
  },
  {
    name: "the same straight to a section at the chair",
    budget: "at most 1.0 s",
    run: (full) => offlineStart("walk", full ? 9 : 3, 1000),
  },
  {
    name: "a plan of 24 sections a side worked out in the browser; natively",
    budget: "at most 2 × native, at most 16 ms",
    run: () => solved(2, 16),
  },
  {
    name: "tasks over 50 ms on the way through a cut, CPU slowed 4 ×",
    budget: "each named, none over 1 s",
    run: () => longTasks(1000),
  },
];
