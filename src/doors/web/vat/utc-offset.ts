/** Minutes that this device's clocks are ahead of UTC at an instant. */
export const utcOffsetMin = (at: number): number => -new Date(at).getTimezoneOffset();
