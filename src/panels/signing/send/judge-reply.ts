/**
 * What a refusal of the site means for a signed record.
 * `later`: nothing was said about the record itself, so it is asked again after a wait.
 * `signed-out`: nobody is signed in. `password`: the proof of a fresh sign-in has run out.
 * `not-allowed`: whoever is signed in may not send it. `refused`: the site will not take it as it is.
 */
export type Judged = 'later' | 'signed-out' | 'password' | 'not-allowed' | 'refused';

export function judgeRefusal(reply: {
  /** HTTP status, 0 when the site was not reached */
  readonly status: number;
  readonly path: string;
}): Judged {
  const { status, path } = reply;
  if (status === 0 || status >= 500 || status === 408 || status === 429) return 'later';
  if (status === 401) return 'signed-out';
  if (status === 403) return path === 'ticket' ? 'password' : 'not-allowed';
  return 'refused';
}

/** First wait after a failure, and the longest, ms. */
const FIRST = 2_000;
const LONGEST = 300_000;

/** How long to wait after so many failures in a row, ms: twice as long each time, up to five minutes. */
export const waitAfter = (failures: number): number =>
  failures <= 0 ? 0 : Math.min(LONGEST, FIRST * 2 ** (failures - 1));
