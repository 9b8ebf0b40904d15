import type { Site } from '../../accounts/index.ts';

/** Digests of the photos of a sign-off that the site has. */
export async function photosThere(
  org: string,
  signoff: string,
  { store }: Site,
): Promise<ReadonlySet<string>> {
  const rows = await store.db
    .selectFrom('photo')
    .select('digest')
    .where('org', '=', org)
    .where('signoff', '=', signoff)
    .execute();
  return new Set(rows.map(({ digest }) => digest));
}
