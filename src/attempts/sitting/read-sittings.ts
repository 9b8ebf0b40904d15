import { can, type Site, type Viewer } from '../../accounts/index.ts';
import {
  type ExamRules,
  type Form,
  type FormGrade,
  type FormKey,
  gradeForm,
  keyOf,
  type PassMark,
  type Work,
  WorkSchema,
} from '../../assessment/index.ts';
import type { StoredEvent } from '../../store/index.ts';
import { passMarkInForce } from '../pass-mark/index.ts';
import { whoBegan } from '../who-began.ts';
import { formOf, sittingRules, sittingVersions } from './sitting-rules.ts';

type Body<Kind extends 'sitting.started' | 'sitting.handed-in'> = NonNullable<
  StoredEvent<Kind>['event']
>['body'];

/** A sitting handed in, made and graded again from its seed and what was done. */
export type GradedSitting = {
  readonly rules: ExamRules;
  readonly form: Form;
  readonly key: FormKey;
  readonly work: Work;
  /** the pass mark in force when it was handed in: a later one does not reach back */
  readonly pass: PassMark;
  readonly grade: FormGrade;
};

export type SittingRecord = {
  readonly id: string;
  readonly person: string;
  readonly blueprint: { readonly id: string; readonly title: string; readonly version: number };
  /** ISO instants by the server's clock */
  readonly startedAt: string;
  readonly handedInAt: string | null;
  readonly feedback: 'now' | 'later';
  /** the result may be read by who sat it */
  readonly isOut: boolean;
  readonly started: Body<'sitting.started'>;
  readonly handedIn: Body<'sitting.handed-in'> | null;
  /** one sentence where the record cannot be read or graded as it was; null when all is well */
  readonly remark: string | null;
};

/** Records of sittings that figures about tests rest on: the newest, of every test together. */
const MOST_RECORDS = 6_000;

/** Sittings of one person or of some, newest first; the newest of everybody when nobody is named. Nothing is graded here. */
export async function sittingsOf(
  site: Site,
  org: string,
  whose?: string | readonly string[],
): Promise<SittingRecord[]> {
  const abouts = typeof whose === 'string' ? [whose] : whose;
  const stored = await site.store.events({
    org,
    kinds: ['sitting.started', 'sitting.handed-in', 'sitting.released'],
    ...(abouts === undefined ? { last: MOST_RECORDS } : { abouts }),
  });
  const ends = new Map<string, StoredEvent>();
  const released = new Set<string>();
  for (const one of stored) {
    if (one.event?.kind === 'sitting.handed-in') ends.set(one.event.body.attempt, one);
    if (one.event?.kind === 'sitting.released') released.add(one.event.body.attempt);
  }
  return stored
    .flatMap((one): SittingRecord[] => {
      const { event } = one;
      if (event?.kind !== 'sitting.started') return [];
      const { attempt, blueprint, blueprintVersion, feedback } = event.body;
      const end = ends.get(attempt);
      const handedIn = end?.event?.kind === 'sitting.handed-in' ? end.event : null;
      const broken = one.broken ?? end?.broken ?? null;
      const title = sittingRules(site, blueprint)?.blueprint.title ?? blueprint;
      return [
        {
          id: attempt,
          person: event.about ?? event.by,
          blueprint: { id: blueprint, title, version: blueprintVersion },
          startedAt: event.received,
          handedInAt: handedIn?.received ?? null,
          feedback,
          isOut: handedIn !== null && (feedback === 'now' || released.has(attempt)),
          started: event.body,
          handedIn: handedIn?.body ?? null,
          remark:
            broken === null ? null : `This record was changed after it was entered: ${broken}`,
        },
      ];
    })
    .reverse();
}

/** One sitting of the organisation, or null. */
export async function findSitting(
  site: Site,
  org: string,
  id: string,
): Promise<SittingRecord | null> {
  const person = await whoBegan(site, { attempt: id, kind: 'sitting.started', org });
  if (person === null) return null;
  return (await sittingsOf(site, org, person)).find((one) => one.id === id) ?? null;
}

/** Whether this viewer may read the result: who sat it once it is out, a trainer of another at any time. */
export function mayReadResult(viewer: Viewer, { person, isOut }: SittingRecord): boolean {
  if (!can(viewer, 'attempt.read', { org: viewer.org, person })) return false;
  return isOut || viewer.person !== person;
}

/**
 * Graded again from what was done and by the pass mark in force when it was handed in, or one sentence why it cannot be.
 * Only of an organisation's own record.
 */
export async function gradeSitting(
  site: Site,
  org: string,
  record: SittingRecord,
): Promise<{ readonly graded: GradedSitting | null; readonly remark: string | null }> {
  const { started, handedIn } = record;
  const none = (remark: string | null) => ({ graded: null, remark });
  if (record.remark !== null) return none(record.remark);
  if (handedIn === null) return none(null);
  const rules = sittingRules(site, started.blueprint);
  if (rules === null) {
    return none(
      'The blueprint of this test is no longer in the course, so it cannot be graded again.',
    );
  }
  const work = WorkSchema.safeParse(handedIn.work);
  if (!work.success) {
    return none(
      'This test holds something this version of the site does not know, so it cannot be graded again.',
    );
  }
  const { form, hash } = formOf(rules, started.seed);
  if (hash !== started.formHash) {
    return none(
      `The test has been changed since (${sayChange(rules, started.versions)}), so it cannot be shown and graded as it was sat.`,
    );
  }
  const key = keyOf(form, rules);
  const pass = await passMarkInForce(site, org, rules.blueprint, record.handedInAt ?? undefined);
  const grade = gradeForm({ form, work: work.data, rules, key, pass });
  const changed = sayChange(rules, handedIn.versions);
  return {
    graded: { rules, form, key, work: work.data, pass, grade },
    remark:
      changed === ''
        ? null
        : `Graded again with newer versions than it was made under: ${changed}.`,
  };
}

function sayChange(rules: ExamRules, then: Readonly<Record<string, string>>): string {
  return Object.entries(sittingVersions(rules))
    .filter(([name, now]) => then[name] !== now)
    .map(([name, now]) => `${name} ${then[name] ?? 'none'}, now ${now}`)
    .join('; ');
}
