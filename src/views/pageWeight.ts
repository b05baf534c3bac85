/**
 * What parts of a page weigh, in bytes of gzip, about: measured on the demo farm and on generated ones with up to 26 zones and 40
 * samplings, and taken a little high. A page of charts, sums or tables is parted where it would pass `mostOfPage`; the budget is
 * 40 kB, and the frame, the facts and the citations need their share. `tests/site/weight.test.ts` weighs the pages themselves.
 */
export const mostOfPage = 32_000;

/** What the field page spends on figures: the rest of it is zones, advice and cautions. */
export const mostOfFieldFigures = 20_000;

/** A zone's advice with all its working. */
export const zoneAdviceWeight = 400;

/** What the field page bears of them; more are worked out on pages of their own. */
export const mostOfFieldAdvice = 20_000;

/** A panel of a trend: drawing, chart data, sentences, the sum behind it, and its rows in the table. */
export const trendPanelWeight = (results: number): number => 600 + 65 * results;

/** Two zones compared, with the sum of each analyte. */
export const zonePairWeight = 480;

/** A zone on the season's pages: a row for each product it takes, the reasons why it takes another not, and what is spread by its sheet. */
export const seasonZoneWeight = 130;

/** A field on the farm's summary: its line of land and its line of what is owed. */
export const summaryFieldWeight = 120;

/** On the calendar: a coming sampling with its reasons, and a field's lines in the tables of cost and of worth. */
export const calendarWeights = { entry: 110, cost: 60, worth: 35 } as const;

/** One nutrient's balance: a panel a zone, a row a season and zone. */
export const balanceWeight = (zones: number, seasons: number): number => zones * (400 + 22 * seasons);

/** One analyte of one sampling on the map: every zone's class, value and words, its legend and its row in the table. */
export const yearMapWeight = (zones: number): number => 260 + 26 * zones;
