export const title = "Access";
export const measures = [];
