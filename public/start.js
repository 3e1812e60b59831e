// Starts the app. The build puts this beside the app's code, into a folder named by its content.
import init from "./tautline.js";

await init();
