import {
  askedBy,
  factorsOf,
  type ResetNews,
  resetNewsFor,
  type Site,
  secondStepRule,
  type Viewer,
} from '../../accounts/index.ts';

/** What a person is told after signing in: a password set anew by link, a second step that is asked from a day on. */
export type EntryNews = {
  readonly reset: ResetNews | null;
  /** YYYY-MM-DD; null where nothing is to come, or it is set up already */
  readonly stepFrom: string | null;
};

export async function entryNews(
  viewer: Viewer,
  site: Site,
  now: Date = new Date(),
): Promise<EntryNews> {
  const reset = await resetNewsFor(viewer.person, site);
  const rule = await secondStepRule(site, viewer.org);
  if (askedBy(rule, viewer.role, now) !== 'soon') return { reset, stepFrom: null };
  const { codes, passkeys } = await factorsOf(site.store.db, viewer.person);
  return { reset, stepFrom: codes || passkeys.length > 0 ? null : rule.from };
}

export async function hasEntryNews(viewer: Viewer, site: Site): Promise<boolean> {
  const { reset, stepFrom } = await entryNews(viewer, site);
  return reset !== null || stepFrom !== null;
}
