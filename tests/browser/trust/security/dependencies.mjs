export const dependencies = [];
