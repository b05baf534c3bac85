/** What was typed and chosen on a page, kept behind the # of its address, so that a link or the way back brings it again. */
export const readState = (hash: string): Map<string, string> =>
  hash.includes("=") ? new Map(new URLSearchParams(hash.slice(1))) : new Map<string, string>();

/** The part behind the #; empty where nothing is set. */
const stateText = (state: Readonly<Record<string, string>>): string =>
  new URLSearchParams(Object.entries(state).filter(([, value]) => value !== "")).toString();

/** Keep a state in the address without moving the page. A heading's anchor stays as it is while there is nothing to keep. */
export const keepState = (state: Readonly<Record<string, string>>): void => {
  const text = stateText(state);
  if (text === "" && !location.hash.includes("=")) return;
  history.replaceState(null, "", text === "" ? location.pathname + location.search : `#${text}`);
};
