import { describeProblem, type Problem } from '../bench/index.ts';
import { changeLimit } from './change-limit.ts';
import { compileReaders, compileWanted } from './compile-limit.ts';
import type { Limit, Source } from './limit.ts';
import type { LimitFile, LimitSetFile, Seen } from './limit-schema.ts';
import { LimitSetSchema } from './limit-set-schema.ts';
import { unitScale } from './published-unit.ts';

export type LimitSet = {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly edition: string;
  readonly caution: string;
  readonly basis: 'published' | 'practice' | 'own';
  /** the set it extends, as id@version; null where it stands by itself */
  readonly base: string | null;
  readonly limits: readonly Limit[];
};

export type ReadLimitSet =
  | { readonly ok: true; readonly set: LimitSet }
  | { readonly ok: false; readonly error: Problem };

/** What a set may extend, and whether it may only make it stricter: an organisation's own set may. */
export type Extending = {
  readonly known: ReadonlyMap<string, LimitSet>;
  readonly changes: 'any' | 'stricter';
};

const NOTHING_TO_EXTEND: Extending = { known: new Map(), changes: 'any' };

/** A limit set from a parsed file, compiled once, or the first problem with it. Never throws. */
export function readLimitSet(
  value: unknown,
  extending: Extending = NOTHING_TO_EXTEND,
): ReadLimitSet {
  const parsed = LimitSetSchema.safeParse(value);
  if (!parsed.success) return { ok: false, error: describeProblem(parsed.error, 'The limit set') };
  return compileLimitSet(parsed.data, extending);
}

function compileLimitSet(file: LimitSetFile, extending: Extending): ReadLimitSet {
  const { id, version, title, edition, caution, basis } = file;
  const inherited = inheritLimits(file, extending);
  if (!inherited.ok) return inherited;
  const limits = [...inherited.limits, ...file.limits.map((limit) => compileLimit(limit, file))];
  const set = { id, version, title, edition, caution, basis, base: inherited.base, limits };
  return { ok: true, set };
}

type Inherited = { readonly ok: true; readonly base: string | null; readonly limits: Limit[] };

/** The limits a set takes over from the one it extends, with its changes. */
function inheritLimits(
  file: LimitSetFile,
  { known, changes }: Extending,
): Inherited | { readonly ok: false; readonly error: Problem } {
  if (file.extends === undefined) return { ok: true, base: null, limits: [] };
  const base = known.get(file.extends);
  if (base === undefined) {
    const names = [...known.keys()].join(', ') || 'none here';
    return refuse('extends', `extends must name one of: ${names}.`);
  }
  const limits = new Map(base.limits.map((limit) => [limit.id, { ...limit, set: file.id }]));
  for (const [i, change] of file.changes.entries()) {
    const limit = limits.get(change.limit);
    if (limit === undefined) {
      const path = `changes[${i}].limit`;
      return refuse(path, `${path} must name a limit of ${base.id}: ${listIds(base)}.`);
    }
    const source = resolveSource(change.source, file.documents);
    const decides = decidesWhen(source.seen, file.basis);
    const changed = changeLimit(limit, change, { set: file.id, source, decides, changes });
    if (!changed.ok) {
      const path = `changes[${i}].${changed.field}`;
      return refuse(path, `${path} ${changed.message}.`);
    }
    limits.set(change.limit, changed.limit);
  }
  return { ok: true, base: `${base.id}@${base.version}`, limits: [...limits.values()] };
}

const refuse = (path: string, message: string) =>
  ({ ok: false, error: { path, message } }) as const;
const listIds = (set: LimitSet): string => set.limits.map(({ id }) => id).join(', ');

/** A figure from memory never decides; one of common practice only where practice is the rule. */
const decidesWhen = (seen: Seen, basis: LimitSetFile['basis']): boolean =>
  seen !== 'memory' && (seen !== 'practice' || basis === 'practice');

function compileLimit(limit: LimitFile, set: LimitSetFile): Limit {
  const wanted = compileWanted(limit);
  return {
    id: limit.id,
    set: set.id,
    title: limit.title,
    measure: limit.measure,
    unit: limit.unit === 'in' ? 'mm' : limit.unit,
    published: limit.unit,
    wanted,
    aim: limit.aim ?? null,
    scale: compileScale(limit),
    grade: limit.grade,
    critical: limit.critical,
    decides: decidesWhen(limit.source.seen, set.basis),
    source: resolveSource(limit.source, set.documents),
    note: limit.note ?? null,
    when: limit.when ?? null,
    asWritten: { min: limit.min ?? null, max: limit.max ?? null },
    ...compileReaders({ when: limit.when ?? null, measure: limit.measure, wanted }),
    changes: null,
  };
}

function resolveSource(
  { document, clause, seen }: LimitFile['source'],
  documents: LimitSetFile['documents'],
): Source {
  const { title, year } = documents[document] ?? { title: document };
  return {
    document: title,
    ...(clause === undefined ? {} : { clause }),
    ...(year === undefined ? {} : { year }),
    seen,
  };
}

function compileScale({ scale, unit }: LimitFile): Limit['scale'] {
  if (scale === undefined) return null;
  return { min: scale[0] * unitScale(unit), max: scale[1] * unitScale(unit) };
}
