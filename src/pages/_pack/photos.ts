import type { Site } from '../../accounts/index.ts';
import { type Statement, sha256, toHex } from '../../records/index.ts';
import type { PackSheet } from './content.ts';

/** The pictures a signed practical names that are still there, and are what was signed for. */
export async function photosOf(
  statement: Statement,
  org: string,
  { store }: Site,
): Promise<PackSheet['photos']> {
  if (statement.schema === 'statement/1' || statement.photos.length === 0) return [];
  const digests = statement.photos.map(({ digest }) => digest);
  const rows = await store.db
    .selectFrom('photo')
    .select(['digest', 'bytes'])
    .where('org', '=', org)
    .where('digest', 'in', digests)
    .orderBy('digest')
    .execute();
  const found = new Map(rows.map(({ bytes, digest }) => [digest, new Uint8Array(bytes)]));
  return digests.flatMap((digest) => {
    const jpeg = found.get(digest);
    return jpeg !== undefined && toHex(sha256(jpeg)) === digest ? [{ digest, jpeg }] : [];
  });
}
