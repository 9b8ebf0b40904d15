import { can, grant, type Outcome, refuse, type Site, type Viewer } from '../../accounts/index.ts';
import { newId } from '../../records/index.ts';
import { readRequest } from '../requests.ts';
import { findSitting } from './read-sittings.ts';
import { ReleaseSchema } from './requests.ts';

/** A trainer lets a result out: `{attempt}` in. Doing it twice does it once. */
export async function releaseSitting(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
): Promise<Outcome<{ readonly attempt: string }>> {
  if (viewer === null) return refuse(401, 'attempt', 'Sign in as a trainer to let a result out.');
  const read = readRequest(ReleaseSchema, body);
  if (!read.ok) return read;
  const record = await findSitting(site, viewer.org, read.value.attempt);
  const person = record?.person ?? viewer.person;
  if (!can(viewer, 'attempt.release', { org: viewer.org, person })) {
    return refuse(
      403,
      'attempt',
      'A result is let out by a trainer, and by somebody else than who sat it.',
    );
  }
  if (record === null || record.handedIn === null) {
    return refuse(404, 'attempt', 'There is no test handed in with this id.');
  }
  if (!record.isOut) {
    await site.store.append({
      id: newId(),
      kind: 'sitting.released',
      version: 1,
      org: viewer.org,
      at: new Date().toISOString(),
      by: viewer.person,
      about: record.person,
      body: { attempt: record.id },
    });
  }
  return grant({ attempt: record.id });
}
