/** A fertilizer's grade, "18-46-0" or "6.5-0-12": three figures of two digits at most, so that no day is one. */
const grade = String.raw`(?<![\d.-])\d{1,2}(?:\.\d+)?-\d{1,2}(?:\.\d+)?-\d{1,2}(?:\.\d+)?(?![\d-])`;
const anyGrade = new RegExp(grade);

/** What may hold no tags as a whole, a tag, or a grade between them. */
const parts = new RegExp(String.raw`<(script|style|svg|title|option)\b[\s\S]*?<\/\1>|<(?:"[^"]*"|'[^']*'|[^'">])*>|${grade}`, "g");

/** A page whose grades are kept whole: a browser would end a line at their hyphens, and "18-" be read as a number of its own. */
export const wholeGrades = (html: string): string =>
  anyGrade.test(html) ? html.replace(parts, (part) => (part.startsWith("<") ? part : `<span class="grade">${part}</span>`)) : html;
