import { getJson } from './post-json.ts';

/** How often a sheet that is being typed in tells the site so, ms. Well below the time after which a session ends unused. */
const EVERY = 10 * 60_000;
let last = Date.now();

/**
 * Tells the site that its user is still at work, so that a practical of two hours can be confirmed on the site at its
 * end. Without a network nothing happens; without a session too.
 */
export function sayInUse(now = Date.now()): void {
  if (now - last < EVERY || !navigator.onLine) return;
  last = now;
  void getJson('/api/people/me', 5_000);
}
