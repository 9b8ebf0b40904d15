import { parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
import { can, type Site, type Viewer } from '../../accounts/index.ts';
import { type Bench, describeProblem, readBench } from '../../bench/index.ts';
import { registerOf, WORK_KINDS } from '../../competence/index.ts';
import type { Held, TypedHeld } from '../../components/register/held-fields.ts';
import { entriesOf } from '../../components/register/machine-entries.ts';
import { newId } from '../../records/index.ts';
import { loadLimitSets } from '../../store/content-files.ts';
import { readFields } from './form-fields.ts';
import { readHeld, readHeldForm } from './held-form.ts';
import { type DeskWord, type Done, refused, refusedFor } from './refused.ts';
import { whyNotWrite } from './workshop.ts';

/** Longest bench file taken, characters: a whole one is about 2000. */
const LONGEST_FILE = 60_000;

function text(most: number) {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
}

/** What each field of the form must be, in the words of the sheet. */
const FIELDS: Readonly<Record<string, DeskWord>> = {
  asset: 'desk.form.asset',
  title: 'desk.form.title',
  work: 'desk.form.work',
  file: 'desk.form.file',
  change: 'machine.no.change',
};
/** Why an entry is replaced: only the entry, the guard, or the machine is other than before. */
export const CHANGES = ['entry', 'guard', 'machine'] as const;

const fileRule = `must be a bench file of 1 to ${LONGEST_FILE} characters, as JSON or YAML`;
export const RegistrationSchema = z.object({
  /** of an entry to replace; a new bench when left out */
  bench: z.string().max(64).optional(),
  asset: text(40),
  title: text(80),
  work: z
    .array(z.enum(WORK_KINDS, { error: `must be one of: ${WORK_KINDS.join(', ')}` }), {
      error: 'must list the work this bench is used for',
    })
    .min(1, { error: 'must list at least one kind of work' }),
  limits: text(60),
  file: z.union(
    [
      z.string().trim().min(1, { error: fileRule }).max(LONGEST_FILE, { error: fileRule }),
      z.record(z.string(), z.unknown()),
    ],
    { error: fileRule },
  ),
  /** of an entry that replaces another; a first entry changes nothing */
  change: z.enum(CHANGES, { error: `must be one of: ${CHANGES.join(', ')}` }).optional(),
  /** what lies with the machine, as typed; that of the entry replaced when left out */
  held: z.custom<TypedHeld>((value) => typeof value === 'object' && value !== null).optional(),
});

/** The fields of a posted registration form as typed; a form that cannot be read comes back empty. */
export async function readBenchForm(request: Request) {
  const fields = await readFields(request);
  const { one: field, all } = fields;
  return {
    asset: field('asset'),
    title: field('title'),
    work: all('work'),
    limits: field('limits'),
    file: field('file'),
    change: field('change') || undefined,
    held: readHeldForm(fields),
    /** which button was pressed: `more` asks for rows, anything else enters */
    asks: field('do') === 'more' ? ('more' as const) : ('enter' as const),
  };
}

const NOTHING_HELD: Held = { blades: [], knives: [], documents: [] };

/** The bench in a pasted or uploaded file, or one sentence with the field or line to mend. */
function readFile(file: string | Record<string, unknown>): Done<Bench> {
  let value: unknown = file;
  if (typeof file === 'string') {
    try {
      // JSON is read as YAML too: one reader, and its errors name the line
      value = parse(file, { prettyErrors: true, maxAliasCount: 50 });
    } catch (error) {
      const line = error instanceof YAMLParseError ? error.linePos?.[0]?.line : undefined;
      return line === undefined
        ? refusedFor(422, 'file', 'desk.form.file.unread')
        : refusedFor(422, 'file', 'desk.form.file.unread.line', { line });
    }
  }
  const read = readBench(value);
  if (read.ok) return { ok: true, value: read.bench };
  const path = `file.${read.error.path}`.replace(/\.$/, '');
  return refusedFor(422, path, 'desk.form.file.in', { problem: read.error.message });
}

export type Registered = { readonly bench: string; readonly asset: string };

/** Enters a machine in the register, or replaces the entry of one that is there. */
export async function registerBench(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
): Promise<Done<Registered>> {
  if (viewer === null) return refusedFor(401, '', whyNotWrite(null));
  if (!can(viewer, 'bench.register', { org: viewer.org })) {
    return refusedFor(403, '', whyNotWrite(viewer));
  }
  const read = RegistrationSchema.safeParse(input);
  if (!read.success) {
    const { path, message } = describeProblem(read.error, 'The form');
    const key = FIELDS[path];
    return key === undefined
      ? refused(400, path, message)
      : refusedFor(400, path, key, { most: LONGEST_FILE });
  }
  const { asset, title, work, limits, file } = read.data;
  const sets = [...loadLimitSets(site.contentDir).keys()];
  if (!sets.includes(limits)) {
    return refusedFor(422, 'limits', 'desk.form.limits', { sets: sets.join(', ') });
  }
  const stored = await site.store.events({ org: viewer.org, kinds: ['bench.registered'] });
  const events = stored.flatMap(({ event }) => (event === null ? [] : [event]));
  const benches = registerOf(events);
  const replaced = benches.find(({ id }) => id === read.data.bench);
  if (read.data.bench !== undefined && replaced === undefined) {
    return refusedFor(404, 'bench', 'desk.no-bench');
  }
  if (
    benches.some(
      (one) => one.asset.toLowerCase() === asset.toLowerCase() && one.id !== replaced?.id,
    )
  ) {
    return refusedFor(409, 'asset', 'desk.form.asset.taken', { asset });
  }
  const opened = readFile(file);
  if (!opened.ok) return opened;
  const { change, held: typed } = read.data;
  if (replaced !== undefined && change === undefined) {
    return refusedFor(400, 'change', 'machine.no.change');
  }
  const held: Done<Held> =
    typed === undefined
      ? { ok: true, value: entriesOf(events, replaced?.id ?? '')[0]?.entry ?? NOTHING_HELD }
      : readHeld(typed);
  if (!held.ok) return held;
  const { blades, knives, documents } = held.value;
  const bench = replaced?.id ?? newId();
  await site.store.append({
    id: newId(),
    kind: 'bench.registered',
    version: 2,
    org: viewer.org,
    at: new Date().toISOString(),
    by: viewer.person,
    about: bench,
    body: {
      bench,
      asset,
      title,
      work: [...new Set(work)],
      limits,
      file: opened.value,
      change: change ?? 'entry',
      blades,
      knives,
      documents,
    },
  });
  return { ok: true, value: { bench, asset } };
}
