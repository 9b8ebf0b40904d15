import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { ReadingsSchema, type Settled } from '../../competence/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { findParts, settle } from './rebuild-statement.ts';
import { type Done, refused, refusedFor } from './refused.ts';
import { saySettled } from './say-settled.ts';
import { whyNotWrite, workshopOf } from './workshop.ts';

/** Holds the readings of an open sheet against the limits in force, while it is being filled in. */
export async function judgeSheetReadings(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  say: Speaker = sayIn('en'),
): Promise<Done<{ readonly settled: readonly Settled[] }>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  const read = ReadingsSchema.safeParse(input);
  const person = read.success ? read.data.person : viewer.person;
  if (!can(viewer, 'practical.write', { org: viewer.org, person })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The request');
    return refused(400, path, message);
  }
  const parts = findParts(await workshopOf(viewer.org, site), read.data);
  if (!parts.ok) return parts;
  const settled = settle(read.data, parts.value).map((one) => saySettled(one, say));
  return { ok: true, value: { settled } };
}
