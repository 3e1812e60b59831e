// The quick part of this group of `make trust`.
import { quickly } from "../trust.mjs";

await quickly("panics");
