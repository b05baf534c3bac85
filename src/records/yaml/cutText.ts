import { isPair, isScalar, isSeq, parseDocument, visit } from "yaml";
import type { Path } from "../place.ts";
import { fieldName, placeAt } from "../place.ts";
import type { Problems } from "../problem.ts";

/** A number sign right before a digit, after a blank: in "bag: A #1" YAML takes it for the beginning of a comment. */
const numbered = /[ \t]#\d/;

/**
 * Warn of texts without quotes that lost their end to a comment of a number: a field or a bag called "A #1" would be read as "A".
 * A comment has a blank after its sign as a rule, and what follows a number or a bracket is one.
 */
export const warnOfCutTexts = (text: string, file: string, problems: Problems): void => {
  if (!numbered.test(text)) return;
  visit(parseDocument(text, { prettyErrors: false, logLevel: "silent" }), {
    Scalar: (key, node, ancestors) => {
      const { type, value, range } = node;
      if (key === "key" || type !== "PLAIN" || typeof value !== "string" || !range) return;
      const rest = /^[ \t]+(#\d[^\r\n]*)/.exec(text.slice(range[1]))?.[1]?.trimEnd();
      if (rest === undefined) return;
      const within = [...ancestors, node];
      const path = ancestors.flatMap((each, i): Path => {
        if (isPair(each)) return isScalar(each.key) ? [String(each.key.value)] : [];
        return isSeq(each) ? [each.items.indexOf(within[i + 1])] : [];
      });
      problems.warn(
        file,
        placeAt(text, range[0]),
        fieldName(path),
        `is read as "${value}", because a # after a blank begins a comment; if ${rest.split(/\s/)[0]!} belongs to it, put the whole in quotes: "${value} ${rest}"`,
      );
    },
  });
};
