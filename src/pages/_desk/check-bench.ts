import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { describeProblem } from '../../bench/index.ts';
import { benchStateOf, type CheckList } from '../../competence/index.ts';
import { newId } from '../../records/index.ts';
import { loadCheckLists } from '../../store/content-files.ts';
import { draftFor } from './draft-for.ts';
import { enterTogether } from './enter-together.ts';
import { readFields } from './form-fields.ts';
import { type DeskWord, type Done, type Refused, refused, refusedFor } from './refused.ts';
import { shopOf, whyNotWrite } from './workshop.ts';

/** The list gone through each day. */
const DAILY = 'daily';
export const RESULTS = ['sound', 'not-sound', 'not-looked-at'] as const;

const note = (most: number) =>
  z
    .string({ error: `must be text of at most ${most} characters` })
    .trim()
    .max(most, {
      error: `must be text of at most ${most} characters`,
    });

const CheckFormSchema = z.object({
  id: z.uuidv7({ error: 'must be a UUID of version 7' }),
  bench: z.string({ error: 'must be a bench' }),
  listVersion: z.coerce.number({ error: 'must be the version of the list' }),
  checks: z.record(
    z.string(),
    z.object({ result: z.enum(RESULTS, { error: 'must be answered' }), note: note(300) }),
    { error: 'must be answered' },
  ),
  verdict: z.enum(['fit', 'not-fit'], { error: 'must be fit or not fit' }),
  /** take the bench out of service together with the check */
  takeOut: z.enum(['yes', 'no'], { error: 'must be yes or no' }),
  reason: note(300),
});

/** The list in use. @throws Error when the content has none */
export function dailyList({ contentDir }: Pick<Site, 'contentDir'>): CheckList {
  const list = loadCheckLists(contentDir).get(DAILY);
  if (list === undefined) throw new Error(`content/checks has no ${DAILY}.yaml.`);
  return list;
}

/** The fields of a posted check as typed. */
export async function readCheckForm(request: Request, list: CheckList) {
  const { one: field } = await readFields(request);
  return {
    id: field('id'),
    listVersion: field('list-version'),
    checks: Object.fromEntries(
      list.checks.map(({ id }) => [
        id,
        { result: field(`result-${id}`), note: field(`note-${id}`) },
      ]),
    ),
    verdict: field('verdict'),
    takeOut: field('take-out') === 'yes' ? 'yes' : 'no',
    reason: field('reason'),
  };
}

const SAYS: readonly (readonly [RegExp, DeskWord])[] = [
  [/^checks\.[^.]+\.note$/, 'machine.no.note'],
  [/^checks/, 'machine.no.check'],
  [/^verdict$/, 'machine.no.verdict'],
  [/^reason$/, 'machine.no.reason'],
];

function refuseForm(error: z.ZodError): Refused {
  const { path, message } = describeProblem(error, 'The form');
  const key = SAYS.find(([pattern]) => pattern.test(path))?.[1];
  return key === undefined ? refused(400, path, message) : refusedFor(400, path, key);
}

export type Checked = { readonly bench: string; readonly takenOut: 'yes' | 'no' };

/**
 * Enters a check of the day. A bench is fit only when every check was looked at and sound; with `takeOut` it
 * leaves service in the same transaction.
 */
export async function checkBench(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<Checked>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (!can(viewer, 'bench.check', { org: viewer.org })) {
    return refusedFor(403, '', 'machine.no.check-right');
  }
  const read = CheckFormSchema.safeParse(input);
  if (!read.success) return refuseForm(read.error);
  const { id, bench, checks, verdict, takeOut, reason, listVersion } = read.data;
  const { benches, events } = await shopOf(viewer.org, site);
  if (!benches.some((one) => one.id === bench)) return refusedFor(404, 'bench', 'desk.no-bench');
  const list = dailyList(site);
  if (listVersion !== list.version) return refusedFor(409, 'list', 'machine.no.list');
  const open = list.checks.find((one) => checks[one.id] === undefined);
  if (open !== undefined) return refusedFor(400, `checks.${open.id}.result`, 'machine.no.check');
  const bad = list.checks.find((one) => checks[one.id]?.result !== 'sound');
  if (verdict === 'fit' && bad !== undefined) {
    const unseen = checks[bad.id]?.result === 'not-looked-at';
    return refusedFor(422, 'verdict', unseen ? 'machine.no.fit-unseen' : 'machine.no.fit', {
      ask: bad.ask,
    });
  }
  if (takeOut === 'yes' && verdict === 'fit') {
    return refusedFor(422, 'verdict', 'machine.no.fit-and-out');
  }
  if (takeOut === 'yes' && reason === '') return refusedFor(400, 'reason', 'machine.no.reason');
  const isOut = benchStateOf(events, bench, new Date().toISOString()).state === 'out-of-service';
  const takes = takeOut === 'yes' && !isOut;
  const entered = await enterTogether(
    draftFor(viewer, 'bench.checked', {
      id,
      about: bench,
      body: {
        bench,
        list: list.id,
        listVersion: list.version,
        checks: list.checks.map((one) => ({
          id: one.id,
          result: checks[one.id]?.result ?? 'not-looked-at',
          note: checks[one.id]?.note || null,
        })),
        verdict,
      },
    }),
    site,
    async () => ({
      ok: true,
      value: takes
        ? [
            draftFor(viewer, 'bench.taken-out', {
              id: newId(),
              about: bench,
              body: { bench, reason },
            }),
          ]
        : [],
    }),
  );
  return entered.ok ? { ok: true, value: { bench, takenOut: takeOut } } : entered;
}
