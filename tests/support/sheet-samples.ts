export const none = 0;
