export const install = [];
