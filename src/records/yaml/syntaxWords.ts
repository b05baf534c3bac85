/** What is wrong with the YAML, in a grower's words; `written` is the text at that place. */
export const syntaxWords = (code: string, message: string, written: string): string => {
  switch (code) {
    case "MULTIPLE_DOCS":
      return "holds more than one document (---); one record a file";
    case "TAB_AS_INDENT":
      return "a tab cannot indent; use spaces";
    case "BAD_INDENT":
      if (message.startsWith("Flow sequence")) return `a list opened with [ is not closed with ]${orMargin(written)}`;
      if (message.startsWith("Flow map")) return `a block opened with { is not closed with }${orMargin(written)}`;
      if (/^\s*(-\S|[•*–—])/.test(written)) return "an entry of a list begins with a hyphen and a space";
      return "this line is indented differently from its neighbors";
    case "MULTILINE_IMPLICIT_KEY":
      return noPairWords;
    case "BLOCK_AS_IMPLICIT_KEY":
      return /^["“”„‘’].*:/.test(written)
        ? 'curly quotes do not hold a text together; put it in " quotes'
        : "a second colon on one line, or a line below that is indented too far; put text that holds a colon in quotes";
    case "BLOCK_IN_FLOW":
      return "a comma is missing between two keys of one block";
    case "BAD_SCALAR_START":
      return `text cannot begin with ${written.charAt(0)}; put it in quotes`;
    case "TAG_RESOLVE_FAILED":
    case "BAD_COLLECTION_TYPE":
      return tagWords;
    case "BAD_DIRECTIVE":
      return directiveWords;
    case "RESOURCE_EXHAUSTION":
      return deepWords;
    case "MISSING_CHAR": {
      if (message.startsWith("Implicit map keys")) return noPairWords;
      const quote = /Missing closing (["'])/.exec(message);
      return quote ? `text opened with ${quote[1]!} is not closed with ${quote[1]!}` : other(message);
    }
    case "UNEXPECTED_TOKEN":
      if (message.startsWith("Unexpected block-seq-ind"))
        return "a value cannot begin with a hyphen and a space; put text in quotes, and a list on the lines below";
      if (message.endsWith("at node end"))
        return 'something follows a text in quotes or a list that has ended; put the whole of it in " quotes';
      if (/^Unexpected flow-\w+-end token in YAML stream/.test(message)) return `a ${written.charAt(0)} that closes nothing`;
      if (/^Unexpected , in flow/.test(message)) return "a comma too many";
      // "K: >250": YAML takes the sign for the start of a text over several lines.
      return /^(Not a YAML token|Block scalar header)/.test(message)
        ? 'a value cannot begin with > or |; write a bound as { value: 3, qualifier: ">" } and put text in quotes'
        : other(message);
    default:
      return other(message);
  }
};

const noPairWords = "this line is no key and value; is a colon missing, or the space after it?";
export const directiveWords = "directives (%) are not allowed in a record";
export const tagWords = "tags (!) are not allowed in a record; write the plain value";
export const deepWords = "is nested too deeply to be a record";

/** What stands below a key must be indented, in brackets too: with more lines to come, it may be this that is wrong. */
const orMargin = (written: string): string => (written.trim() === "" ? "" : ", or a line in it is not indented");

const other = (message: string): string =>
  message.startsWith("Sequence item without -")
    ? "this line is indented neither as an entry of the list above it nor as a part of one"
    : `is not valid YAML: ${message.charAt(0).toLowerCase()}${message.slice(1)}`;
