import { can, type Site, type Viewer } from '../../accounts/index.ts';
import {
  checkPhoto,
  type EventOf,
  LARGEST_PHOTO,
  type StatementNow,
  sha256,
  toHex,
} from '../../records/index.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

export type PhotoName = {
  /** SHA-256 of the picture, 64 hexadecimal digits */
  readonly digest: string;
  /** id of the sign-off that names it */
  readonly signoff: string;
};

type Signed = Pick<EventOf<'practical.signed'>, 'by'> & { readonly statement: StatementNow };

/** The signed record that names a photo, or why there is none. A record that was altered names nothing. */
async function findSigned(
  viewer: Viewer,
  { digest, signoff }: PhotoName,
  { store }: Site,
): Promise<Done<Signed>> {
  if (!/^[0-9a-f]{64}$/.test(digest)) {
    return refused(400, 'digest', 'digest must be a SHA-256, 64 hexadecimal digits.');
  }
  const found = await store.event(signoff);
  const event = found?.broken === null ? found.event : null;
  if (event?.kind !== 'practical.signed' || event.org !== viewer.org) {
    return refusedFor(404, 'signoff', 'desk.no-practical');
  }
  const { statement } = event.body;
  const isNamed =
    statement.schema !== 'statement/1' && statement.photos.some((one) => one.digest === digest);
  return isNamed
    ? { ok: true, value: { by: event.by, statement } }
    : refusedFor(422, 'digest', 'desk.photo.unnamed');
}

/**
 * Takes in a photo of a signed practical: from the trainer who signed it, and only the very picture whose
 * digest stands in what was signed. The same one again gets the same answer.
 */
export async function keepPhoto(
  viewer: Viewer | null,
  name: PhotoName,
  photo: { readonly type: string; readonly bytes: Uint8Array },
  site: Site,
): Promise<Done<PhotoName>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (viewer.role !== 'trainer') return refusedFor(403, '', whyNotWrite(viewer));
  const signed = await findSigned(viewer, name, site);
  if (!signed.ok) return signed;
  const about = signed.value.statement.who.person;
  if (
    signed.value.by !== viewer.person ||
    !can(viewer, 'practical.sign', { org: viewer.org, person: about })
  ) {
    return refusedFor(403, 'signoff', 'desk.photo.other');
  }
  const { bytes, type } = photo;
  if (type.split(';', 1)[0]?.trim() !== 'image/jpeg') {
    return refused(422, 'photo', 'photo must be a JPEG picture.');
  }
  const problem = checkPhoto(bytes);
  if (problem !== null) return refused(bytes.length > LARGEST_PHOTO ? 413 : 422, 'photo', problem);
  const { digest, signoff } = name;
  if (toHex(sha256(bytes)) !== digest) return refusedFor(422, 'digest', 'desk.photo.digest');
  await site.store.db
    .insertInto('photo')
    .values({
      digest,
      org: viewer.org,
      signoff,
      about,
      type: 'image/jpeg',
      bytes,
      received: new Date().toISOString(),
    })
    .onConflict((conflict) => conflict.columns(['org', 'digest', 'signoff']).doNothing())
    .execute();
  return { ok: true, value: { digest, signoff } };
}

/** A photo of a signed practical, for those who may read the record. */
export async function photoOf(
  viewer: Viewer | null,
  name: PhotoName,
  site: Site,
): Promise<Done<Uint8Array>> {
  if (viewer === null) return refusedFor(401, '', 'desk.signed-out');
  const signed = await findSigned(viewer, name, site);
  if (!signed.ok) return signed.status === 422 ? { ...signed, status: 404 } : signed;
  const { person } = signed.value.statement.who;
  if (!can(viewer, 'practical.read', { org: viewer.org, person })) {
    return refusedFor(403, 'signoff', 'desk.photo.refused');
  }
  const row = await site.store.db
    .selectFrom('photo')
    .select('bytes')
    .where('org', '=', viewer.org)
    .where('digest', '=', name.digest)
    .where('signoff', '=', name.signoff)
    .executeTakeFirst();
  return row === undefined
    ? refusedFor(404, 'digest', 'desk.photo.none')
    : { ok: true, value: row.bytes };
}
