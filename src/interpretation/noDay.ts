/** The day that a farm speaks from while its records hold none: before any of them, and never shown. */
export const noDay = "1900-01-01";
