import { anyHost } from "./offline/hosts.mjs";
import { install } from "./offline/install.mjs";
import { updates } from "./offline/updates.mjs";
import { broken } from "./offline/broken.mjs";

export const title = "Offline";
export const measures = [...anyHost, ...install, ...updates, ...broken];
