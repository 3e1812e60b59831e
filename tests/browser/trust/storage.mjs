// What is kept, under every fault of a browser's storage. Each file in storage/ is one kind of fault;
// storage/faults.mjs has what they share, storage/day.mjs the day that most of them go through.
import { clocks } from "./storage/clock.mjs";
import { damaged } from "./storage/damaged.mjs";
import { gone } from "./storage/gone.mjs";
import { off } from "./storage/off.mjs";
import { old } from "./storage/old.mjs";
import { quota } from "./storage/quota.mjs";
import { room } from "./storage/room.mjs";
import { windows } from "./storage/windows.mjs";

export const title = "Storage";
export const measures = [...quota, ...off, ...damaged, ...windows, ...clocks, ...gone, ...old, ...room];
