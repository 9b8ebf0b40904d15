/**
 * The clock of a sitting. Only the server's clock is read: what a device takes the time to be changes
 * nothing. Time counts from one word of the device to the next; a longer silence is a crash or a lost
 * network and counts as away, so that nobody pays for it and everybody sees it in the review.
 */

/** How the time may be adjusted before the start (WCAG 2.2, success criterion 2.2.1). */
export const TIME_CHOICES = { 'as-set': 1, 'half-more': 1.5, twice: 2, 'ten-times': 10, off: null };
export type TimeChoice = keyof typeof TIME_CHOICES;
export const TIME_WORDS = Object.keys(TIME_CHOICES) as [TimeChoice, ...TimeChoice[]];

/** ms of silence that still count as work: a device speaks every 25 s. */
export const SILENCE = 90_000;
/** ms after the end in which what is under way may still come in. */
export const GRACE = 30_000;
/** ms that one asking for more time gives. */
export const MORE = 10 * 60_000;

export type Clock = {
  readonly used: number;
  readonly away: number;
  /** null while paused */
  readonly contactAt: string | null;
  readonly allowed: number | null;
};

/** ms allowed after the adjustment; null where there is no limit. */
export function allowedTime(minutes: number | undefined, choice: TimeChoice): number | null {
  const factor = TIME_CHOICES[choice];
  return minutes === undefined || factor === null ? null : Math.round(minutes * factor * 60_000);
}

/** The clock at this moment. A server's clock set back counts nothing twice. */
export function runClock<Row extends Clock>(row: Row, now: Date): Row {
  if (row.contactAt === null) return row;
  const gap = Math.max(0, now.getTime() - Date.parse(row.contactAt));
  const counted = gap > SILENCE ? 0 : gap;
  return { ...row, used: row.used + counted, away: row.away + gap - counted };
}

export const isOver = ({ used, allowed }: Clock): boolean =>
  allowed !== null && used > allowed + GRACE;

/** Whether the tab that holds it spoke a moment ago, and has not paused. */
export const isAlive = ({ contactAt }: Clock, now: Date): boolean =>
  contactAt !== null && now.getTime() - Date.parse(contactAt) <= SILENCE;

/** What the page is told of the time: ms used, and ms left where there is a limit. */
export type ToldTime = { readonly used: number; readonly left: number | null };
export const tellTime = ({ used, allowed }: Clock): ToldTime => ({
  used,
  left: allowed === null ? null : Math.max(0, allowed - used),
});
