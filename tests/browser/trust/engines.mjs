export const title = "Engines";
export const measures = [];
