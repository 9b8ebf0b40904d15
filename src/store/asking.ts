import { AsyncLocalStorage } from 'node:async_hooks';
import { ofProcess } from '../logging/index.ts';

/**
 * For whom the database is asked. PostgreSQL shows a connection the rows of that organisation and no other
 * (`walls`), so a query that forgets to say which organisation it means gives nothing away. SQLite has no such
 * wall: there the conditions in each query are all there is.
 */
type Asking = { who: string };

/** Where nobody said who asks: no row of anybody. */
export const NOBODY = '';
/** The site itself, such as at sign-in, where the organisation is not known yet. */
export const WHOLE_SITE = '*';

const askings = ofProcess('asking', () => new AsyncLocalStorage<Asking>());

export const whoAsks = (): string => askings.getStore()?.who ?? NOBODY;

/** Runs `work` with what the whole site holds in reach. For what belongs to no one organisation, and for nothing else. */
export function asSite<Result>(work: () => Result): Result {
  return askings.run({ who: WHOLE_SITE }, work);
}

/** Runs `work` with the rows of one organisation in reach. @throws RangeError when `org` is no organisation's id */
export function asOrganisation<Result>(org: string, work: () => Result): Result {
  if (org === NOBODY || org === WHOLE_SITE) throw new RangeError('an organisation has an id.');
  return askings.run({ who: org }, work);
}

/** Runs `work` for somebody of whom is not known yet who it is: with nothing in reach until `askFor` is called. */
export function asSomebody<Result>(work: () => Result): Result {
  return askings.run({ who: NOBODY }, work);
}

/**
 * Says, inside `asSomebody`, whom the rest of it is for. It holds also for what is written out later, after
 * whoever called it has returned, as a page is.
 */
export function askFor(who: { readonly org: string } | 'site' | null): void {
  const asking = askings.getStore();
  if (asking === undefined) return;
  asking.who = who === null ? NOBODY : who === 'site' ? WHOLE_SITE : who.org;
}
