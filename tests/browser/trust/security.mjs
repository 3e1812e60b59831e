export const title = "Security";
export const measures = [];
