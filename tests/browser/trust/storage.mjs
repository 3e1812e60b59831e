export const title = "Storage";
export const measures = [];
