export const title = "Speed";
export const measures = [];
