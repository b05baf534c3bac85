/** Whose class it is where a soil pH is rated and no guideline did it. */
export const ownTarget = "the field's own target";
