export const title = "Soak";
export const measures = [];
