/** A character as U+202E, for one that would not be seen. */
export const codePoint = (code: number): string => `U+${code.toString(16).toUpperCase().padStart(4, "0")}`;
