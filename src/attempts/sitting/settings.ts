import {
  can,
  grant,
  type Outcome,
  personOf,
  refuse,
  type Site,
  type Viewer,
} from '../../accounts/index.ts';
import { newId } from '../../records/index.ts';
import { readRequest } from '../requests.ts';
import { SetSchema } from './requests.ts';
import { blueprintsOf } from './sitting-rules.ts';

/** A blueprint a trainer chose for somebody. */
export type Setting = {
  readonly setting: string;
  readonly person: string;
  readonly blueprint: string;
  readonly feedback: 'now' | 'later';
  /** who chose it, and when */
  readonly by: string;
  readonly at: string;
  /** it has been begun */
  readonly isUsed: boolean;
};

/** What trainers chose for a person, newest first. */
export async function settingsFor(site: Site, org: string, person: string): Promise<Setting[]> {
  const stored = await site.store.events({
    org,
    kinds: ['sitting.set', 'sitting.started'],
    about: person,
  });
  const events = stored.flatMap(({ event, broken }) => (event && broken === null ? [event] : []));
  const used = new Set(
    events.flatMap((one) => (one.kind === 'sitting.started' ? (one.body.setting ?? []) : [])),
  );
  return events
    .flatMap((one): Setting[] =>
      one.kind === 'sitting.set'
        ? [
            {
              ...one.body,
              person,
              by: one.by,
              at: one.received,
              isUsed: used.has(one.body.setting),
            },
          ]
        : [],
    )
    .reverse();
}

/** A trainer chooses a blueprint for somebody: `{person, blueprint, feedback}` in. */
export async function setSitting(
  site: Site,
  viewer: Viewer | null,
  body: unknown,
): Promise<Outcome<{ readonly setting: string }>> {
  if (viewer === null)
    return refuse(401, 'person', 'Sign in as a trainer to choose a test for somebody.');
  const read = readRequest(SetSchema, body);
  if (!read.ok) return read;
  const { person, blueprint, feedback } = read.value;
  if (!can(viewer, 'attempt.set', { org: viewer.org, person })) {
    return refuse(403, 'person', 'A test is chosen by a trainer, and for somebody else.');
  }
  const known = await personOf(viewer.org, person, site);
  if (known === null || known.role === 'employer') {
    return refuse(404, 'person', 'There is nobody with this id who learns in your workshop.');
  }
  if (!blueprintsOf(site).some(({ id }) => id === blueprint)) {
    return refuse(404, 'blueprint', `There is no test named ${blueprint}.`);
  }
  const waiting = (await settingsFor(site, viewer.org, person)).find(
    (one) => !one.isUsed && one.blueprint === blueprint,
  );
  if (waiting !== undefined && waiting.feedback === feedback) {
    return grant({ setting: waiting.setting });
  }
  const setting = newId();
  await site.store.append({
    id: newId(),
    kind: 'sitting.set',
    version: 1,
    org: viewer.org,
    at: new Date().toISOString(),
    by: viewer.person,
    about: person,
    body: { setting, blueprint, feedback },
  });
  return grant({ setting });
}
