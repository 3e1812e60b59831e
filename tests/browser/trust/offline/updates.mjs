export const updates = [];
