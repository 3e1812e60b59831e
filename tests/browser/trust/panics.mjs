import { starts } from "./panics/starts.mjs";
import { traps } from "./panics/traps.mjs";

export const title = "Panics";
export const measures = [...starts, ...traps];
