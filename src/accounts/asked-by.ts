import { askFor } from '../store/index.ts';
import { plainPath } from '../words/index.ts';
import type { Viewer } from './viewer.ts';

/**
 * Pages that work before anybody is known, or for whoever holds a secret address: there the site itself asks the
 * database. Everywhere else the person who is signed in does, and sees their own organisation.
 */
export const ASKED_BY_SITE: ReadonlySet<string> = new Set([
  '/',
  '/set-up',
  '/sign-in',
  '/sign-out',
  '/invitation/[token]',
  '/new-password/[token]',
  '/calendar/[token].ics',
  '/shared/[token]',
  '/shared/[token]/[file]',
  '/api/passkeys/ask',
  '/api/passkeys/answer',
]);

/** Says for the rest of a request who asks the database. @param route pattern of the page's address, in any language */
export function askForRoute(route: string, viewer: Viewer | null): void {
  askFor(ASKED_BY_SITE.has(plainPath(route)) ? 'site' : viewer);
}
