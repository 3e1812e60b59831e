export const title = "Panics";
export const measures = [];
