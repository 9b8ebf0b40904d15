import type { AuthorisationParts } from './authorisation-file.ts';
import type { Bytes } from './bytes.ts';
import { sayMoment } from './check-holding.ts';
import { isFreshAt, openStatusList } from './check-status.ts';
import { type JsonObject, textAt, valueAt } from './json-shape.ts';
import { bitAt, type StatusPurpose, statusEntryOf } from './status-list.ts';
import { type Check, judge } from './verdict.ts';

/** Whether leave to work stands, as far as the status lists in the file can tell. */
export type StandingFinding =
  | { readonly state: 'altered' }
  | {
      /** `withdrawn`: a practical it rests on was; `ended`: it was ended; `suspended`: it rests */
      readonly state: 'in-force' | 'withdrawn' | 'ended' | 'suspended' | 'unknown';
      readonly asOf: string;
    };

type Bit = { readonly bit: 0 | 1; readonly list: JsonObject };

type Opened = ReadonlyMap<JsonObject, Bytes | null>;

const listFor = (index: number, purpose: StatusPurpose, parts: AuthorisationParts) => {
  const entry = statusEntryOf(parts.issuer, index, purpose);
  const list = parts[purpose].find((one) => valueAt(one, 'id') === entry.statusListCredential);
  return { entry, list };
};

/** Each list in the file, opened once: practicals mostly share one. */
async function openLists(places: readonly number[], parts: AuthorisationParts): Promise<Opened> {
  const opened = new Map<JsonObject, Bytes | null>();
  for (const purpose of ['revocation', 'suspension'] as const) {
    for (const index of places) {
      const { entry, list } = listFor(index, purpose, parts);
      if (list !== undefined && !opened.has(list)) {
        opened.set(list, await openStatusList(list, entry, parts));
      }
    }
  }
  return opened;
}

/** The bit of one place in the log; `none` where its list is not in the file. */
function bitOf(
  index: number,
  purpose: StatusPurpose,
  { opened, parts }: { opened: Opened; parts: AuthorisationParts },
): Bit | 'none' | 'altered' {
  const { entry, list } = listFor(index, purpose, parts);
  if (list === undefined) return 'none';
  const bits = opened.get(list) ?? null;
  const bit = bits === null ? null : bitAt(bits, Number(entry.statusListIndex));
  return bit === null ? 'altered' : { bit, list };
}

const asOfList = ({ list }: Bit): string => textAt(list, 'validFrom');

/**
 * Reads the lists in the file: the authorisation's own bits, and that of each practical it rests on.
 *
 * @param at moment asked about, as toISOString writes it
 * @throws ShapeError for a list that does not have the form of one
 */
export async function checkStanding(
  parts: AuthorisationParts,
  at: string,
): Promise<StandingFinding> {
  const own = parts.eventPlace.index;
  const places = [own, ...parts.basis.map(({ place }) => place.index)];
  const from = { parts, opened: await openLists(places, parts) };
  const revoked = places.map((index) => bitOf(index, 'revocation', from));
  const resting = bitOf(own, 'suspension', from);
  const found = [...revoked, resting];
  const used = new Set(found.flatMap((one) => (typeof one === 'string' ? [] : [one.list])));
  const isIdle = used.size !== parts.revocation.length + parts.suspension.length;
  if (found.includes('altered') || isIdle) return { state: 'altered' };

  const bits = found.filter((one): one is Bit => typeof one !== 'string');
  const isSet = (one: Bit | 'none' | 'altered' | undefined): one is Bit =>
    typeof one === 'object' && one.bit === 1;
  const basis = revoked.slice(1).find(isSet);
  if (basis !== undefined) return { state: 'withdrawn', asOf: asOfList(basis) };
  if (isSet(revoked[0])) return { state: 'ended', asOf: asOfList(revoked[0]) };
  const made = textAt(parts.credential, 'proof', 0, 'created');
  const asOf = bits.map(asOfList).sort()[0] ?? made;
  const isKnown = bits.length === found.length && bits.every(({ list }) => isFreshAt(list, at));
  // resting is lifted again, so an old list says nothing of it either way
  if (!isKnown) return { state: 'unknown', asOf };
  return { state: isSet(resting) ? 'suspended' : 'in-force', asOf };
}

export function describeStanding(found: StandingFinding): Check {
  const id = 'withdrawal';
  if (found.state === 'altered')
    return judge(id, "The status list is not the issuer's, or was altered.", '');
  const when = sayMoment(found.asOf);
  if (found.state === 'withdrawn')
    return judge(id, `A practical it rests on was withdrawn, by the status list of ${when}.`, '');
  if (found.state === 'ended')
    return judge(id, `It was ended before its time, by the status list of ${when}.`, '');
  if (found.state === 'suspended')
    return judge(id, `It rests until it is refreshed, by the status list of ${when}.`, '');
  if (found.state === 'in-force')
    return judge(id, null, `It had not been ended, and did not rest, on ${when}.`);
  return {
    id,
    state: 'unknown',
    sentence: `Nothing is known of an end or a rest after ${when}.`,
  };
}
