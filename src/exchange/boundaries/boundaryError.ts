/** A file of boundaries that cannot be used: the message is one line, says what is wrong, and follows the file's name and a colon. */
export class BoundaryError extends Error {}
