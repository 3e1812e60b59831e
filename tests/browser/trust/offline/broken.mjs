export const broken = [];
