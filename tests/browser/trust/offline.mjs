export const title = "Offline";
export const measures = [];
