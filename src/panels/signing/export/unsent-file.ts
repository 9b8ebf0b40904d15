import {
  type Bytes,
  checkPhoto,
  checkSignoff,
  fromBase64,
  groupAt,
  listAt,
  publicKeyOf,
  requireFields,
  ShapeError,
  type Signoff,
  sha256,
  textAt,
  toHex,
  valueAt,
} from '../../../records/check/index.ts';
import type { SignedRequest } from '../store/kept.ts';

export const UNSENT_FORMAT = 'signed-to-saw/unsent/1';

export type UnsentRecord = SignedRequest & {
  readonly title: string;
  readonly path: string;
  readonly signedAt: string;
  /** digests of photos the site does not have yet */
  readonly photos: readonly string[];
};

export type UnsentFile = {
  readonly format: typeof UNSENT_FORMAT;
  readonly savedAt: string;
  readonly records: readonly UnsentRecord[];
  /** base 64 by digest */
  readonly photos: Readonly<Record<string, string>>;
};

export type ReadFile = {
  readonly records: readonly UnsentRecord[];
  readonly photos: ReadonlyMap<string, Bytes>;
};

const MOST_RECORDS = 500;

function readPhotos(file: unknown): ReadonlyMap<string, Bytes> {
  const photos = new Map<string, Bytes>();
  for (const [digest, text] of Object.entries(groupAt(file, 'photos'))) {
    const bytes = typeof text === 'string' ? fromBase64(text) : null;
    if (bytes === null) throw new ShapeError(`photos.${digest} must be a picture in base 64`);
    if (toHex(sha256(bytes)) !== digest) {
      throw new ShapeError(`photos.${digest} must be the picture of that digest: it was changed`);
    }
    const problem = checkPhoto(bytes);
    if (problem !== null) throw new ShapeError(`photos.${digest}: ${problem.replace(/\.$/, '')}`);
    photos.set(digest, bytes);
  }
  return photos;
}

async function readRecord(value: unknown, where: string): Promise<UnsentRecord> {
  const record = groupAt(value);
  requireFields(record, where, ['event', 'sheet', 'title', 'path', 'signedAt', 'photos']);
  const event = groupAt(record, 'event');
  const id = textAt(event, 'id');
  const by = textAt(event, 'by');
  if (textAt(event, 'kind') !== 'practical.signed') {
    throw new ShapeError(`${where}.event must be a signed practical`);
  }
  const body = groupAt(event, 'body');
  const statement = groupAt(body, 'statement');
  if (textAt(statement, 'signoff') !== id || textAt(statement, 'trainer', 'person') !== by) {
    throw new ShapeError(`${where}.event must be of the sign-off and the trainer in its statement`);
  }
  const publicKey = publicKeyOf(textAt(body, 'keyId'));
  const signoff = body as unknown as Signoff;
  const checked = publicKey === null ? null : await checkSignoff(signoff, publicKey);
  if (checked?.ok !== true) throw new ShapeError(`${where}.event must be as it was signed`);
  const signed = new Set(photosIn(statement));
  const photos = listAt(record, 'photos').map((digest) => {
    if (typeof digest === 'string' && signed.has(digest)) return digest;
    throw new ShapeError(`${where}.photos must be photos the statement names`);
  });
  const path = textAt(record, 'path');
  if (!/^\/(?!\/)/.test(path)) throw new ShapeError(`${where}.path must be a page of this site`);
  return {
    event: { ...event, id, by, body },
    sheet: groupAt(record, 'sheet'),
    title: textAt(record, 'title').slice(0, 300),
    path,
    signedAt: textAt(record, 'signedAt'),
    photos,
  };
}

const photosIn = (statement: unknown): unknown[] => {
  const photos = valueAt(statement, 'photos');
  return Array.isArray(photos) ? photos.map((one) => valueAt(one, 'digest')) : [];
};

/**
 * Reads a file of signed records, and takes nothing from it whose signature or digest does not hold.
 * @throws ShapeError with what is wrong and where
 */
export async function readUnsentFile(file: unknown): Promise<ReadFile> {
  const group = groupAt(file);
  requireFields(group, 'The file', ['format', 'savedAt', 'records', 'photos']);
  if (group['format'] !== UNSENT_FORMAT) throw new ShapeError(`format must be "${UNSENT_FORMAT}"`);
  const list = listAt(group, 'records');
  if (list.length > MOST_RECORDS) {
    throw new ShapeError(`records must list at most ${MOST_RECORDS} records`);
  }
  const photos = readPhotos(group);
  const records: UnsentRecord[] = [];
  for (const [index, value] of list.entries()) {
    records.push(await readRecord(value, `records[${index}]`));
  }
  const lost = records.flatMap((one) => one.photos).find((digest) => !photos.has(digest));
  if (lost !== undefined) throw new ShapeError(`photos must hold ${lost}, which a record names`);
  return { records, photos };
}
