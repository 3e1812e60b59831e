import { dependencies } from "./security/dependencies.mjs";
import { markup } from "./security/markup.mjs";
import { policy } from "./security/policy.mjs";
import { strangers } from "./security/strangers.mjs";

export const title = "Security";
export const measures = [...policy, ...markup, ...strangers, ...dependencies];
