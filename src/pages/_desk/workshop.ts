import type { Person, Site, Viewer } from '../../accounts/index.ts';
import { peopleOf } from '../../accounts/index.ts';
import {
  type LogEvent,
  type NeededUnit,
  type RegisteredBench,
  registerOf,
  statusOf,
  type Unit,
  type WorkStatus,
} from '../../competence/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import { loadLimitSets, loadUnits } from '../../store/content-files.ts';
import type { StoredEvent } from '../../store/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { PERSON_KINDS, SHOP_KINDS } from './kinds-that-bear.ts';
import type { DeskWord } from './refused.ts';

/** What every page about practicals works from: one organisation's people, benches, units and log. */
export type Workshop = {
  readonly people: readonly Person[];
  readonly benches: readonly RegisteredBench[];
  readonly units: readonly Unit[];
  readonly sets: ReadonlyMap<string, LimitSet>;
  readonly events: readonly LogEvent[];
  /** records that were changed after they were entered, in the order of the log */
  readonly altered: readonly StoredEvent[];
  readonly nameOf: (person: string) => string;
};

const KINDS = [
  'person.joined',
  'person.role-changed',
  'bench.checked',
  ...SHOP_KINDS,
  ...PERSON_KINDS,
] as const;

/** An altered record is passed on as such: it counts for nobody, and an altered withdrawal still withdraws. */
export const toLogEvent = ({ event, broken }: StoredEvent): LogEvent[] => {
  if (event === null) return [];
  return [broken === null ? event : { ...event, altered: true }];
};

/** @param say what somebody who has left is called in */
export async function workshopOf(
  org: string,
  site: Site,
  say: Speaker = sayIn('en'),
): Promise<Workshop> {
  const stored = await site.store.events({ org, kinds: KINDS });
  const people = await peopleOf(org, site);
  const names = new Map(people.map(({ person, name }) => [person, name]));
  const events = stored.flatMap(toLogEvent);
  return {
    people,
    benches: registerOf(events),
    units: [...loadUnits(site.contentDir).values()].sort((a, b) => a.number - b.number),
    sets: loadLimitSets(site.contentDir),
    events,
    altered: stored.filter(({ broken }) => broken !== null),
    nameOf: (person) => names.get(person) ?? say('desk.left'),
  };
}

/** Whether this is the invented workshop, whose sheets must not be taken for real ones. */
export async function isInvented(org: string, { store }: Site): Promise<boolean> {
  const row = await store.db
    .selectFrom('organisation')
    .select('invented')
    .where('id', '=', org)
    .executeTakeFirst();
  return row?.invented === 1;
}

/** Where one person stands with one kind of work on one bench. */
export function standingOf(
  workshop: Workshop,
  question: {
    readonly person: string;
    readonly bench: string;
    readonly work: string;
    readonly at: string;
  },
): WorkStatus {
  const { events, nameOf } = workshop;
  const units: readonly NeededUnit[] = workshop.units;
  return statusOf({ ...question, events, units, nameOf });
}

/** Why somebody who may not write here is refused, as one sentence of the sheet `desk`. */
export function whyNotWrite(viewer: Viewer | null): DeskWord {
  if (viewer === null) return 'desk.signed-out';
  if (viewer.role === 'employer') return 'desk.not.employer';
  return viewer.role === 'trainee' ? 'desk.not.trainee' : 'desk.not.self';
}
