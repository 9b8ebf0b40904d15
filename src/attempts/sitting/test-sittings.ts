import type { Site } from '../../accounts/index.ts';
import { CONFIDENCE, type TestSitting } from '../../assessment/index.ts';
import {
  type GradedSitting,
  gradeSitting,
  type SittingRecord,
  sittingsOf,
} from './read-sittings.ts';

/** What was named in a form, with how sure and whether it was there; the later word stands. */
function judgementsOf({ form, work, grade }: GradedSitting): TestSitting['judgements'] {
  return form.tasks.flatMap(({ id }) => {
    const answer = work[id];
    if (answer?.kind !== 'find') return [];
    const lines = grade.tasks.find(({ task }) => task === id)?.lines ?? [];
    const found = new Set(
      lines
        .filter(({ what }) => what === 'found')
        .map(({ about, values }) => `${values['part']} ${about}`),
    );
    const standing = new Map(answer.findings.map((one) => [`${one.part} ${one.fault}`, one]));
    return [...standing].map(([key, { confidence }]) => ({
      confidence: CONFIDENCE[confidence],
      right: found.has(key),
    }));
  });
}

function fromSitting({ person, started }: SittingRecord, graded: GradedSitting): TestSitting {
  const { form, grade } = graded;
  const lines = grade.tasks.flatMap((task) => task.lines);
  return {
    person,
    form: started.formHash,
    score: grade.score,
    parts: Object.fromEntries(
      grade.tasks.map(({ task, score, weight }) => [task, { score, weight }]),
    ),
    faults: Object.fromEntries(
      lines.flatMap(({ what, about }) =>
        what === 'found' || what === 'missed' ? [[about, what === 'found'] as const] : [],
      ),
    ),
    thought: {
      faults: Object.fromEntries(
        form.tasks.flatMap((task) =>
          task.kind === 'find'
            ? task.planted.map(({ fault, estimate }) => [fault, estimate / 100] as const)
            : [],
        ),
      ),
      parts: Object.fromEntries(form.tasks.map(({ id, estimate }) => [id, estimate])),
    },
    judgements: judgementsOf(graded),
  };
}

/** Making a form again takes tens of ms, and neither form nor work ever changes: kept while the site runs. */
const known = new Map<string, TestSitting>();
const MOST_KNOWN = 5000;

/** What a sitting comes to, or null where it cannot be graded as it was. */
export async function readSitting(
  site: Site,
  org: string,
  record: SittingRecord,
): Promise<TestSitting | null> {
  // a record that was changed has a remark, and is graded by nobody
  if (record.handedInAt === null || record.remark !== null) return null;
  const key = `${org} ${record.id}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  // many in a row must not keep everybody else waiting
  await new Promise((next) => setImmediate(next));
  const { graded } = await gradeSitting(site, org, record);
  if (graded === null) return null;
  const sitting = fromSitting(record, graded);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, sitting);
  return sitting;
}

/** Tests on a blueprint, in its version now, that were handed in and can be graded, oldest first. */
export async function blueprintSittings(
  site: Site,
  org: string,
  blueprint: { readonly id: string; readonly version: number },
): Promise<TestSitting[]> {
  const sittings: TestSitting[] = [];
  const records = (await sittingsOf(site, org)).filter(
    (one) => one.blueprint.id === blueprint.id && one.blueprint.version === blueprint.version,
  );
  for (const record of records.reverse()) {
    const sitting = await readSitting(site, org, record);
    if (sitting !== null) sittings.push(sitting);
  }
  return sittings;
}
