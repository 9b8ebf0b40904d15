import { describeProblem, type Measures, type MeasureUnit, type Problem } from '../bench/index.ts';
import { MM_PER_INCH } from '../geometry/index.ts';
import { ALWAYS, compileCondition, type Test } from './condition.ts';
import type { Condition } from './condition-schema.ts';
import type { LimitGrade } from './failed-ends.ts';
import type { LimitEndFile, LimitFile, LimitSetFile, PublishedUnit, Seen } from './limit-schema.ts';
import { LimitSetSchema } from './limit-set-schema.ts';
import { type Reader, readField, readSubject } from './subject.ts';

/** Where a figure comes from, shown beside every result. */
export type Source = {
  readonly document: string;
  readonly clause?: string;
  readonly year?: number;
  readonly seen: Seen;
};

/** An end of a limit for one bench, in the unit of the measure; null when it has no meaning there. */
export type EndReader = (root: unknown, measures: Measures) => number | null;

/** What the value is held against. */
export type Wanted =
  | {
      readonly kind: 'size';
      readonly min: EndReader | null;
      readonly minInclusive: boolean;
      readonly max: EndReader | null;
      readonly maxInclusive: boolean;
    }
  | { readonly kind: 'word'; readonly allowed: readonly (string | boolean)[] }
  | { readonly kind: 'fitted'; readonly fitted: boolean };

/** One figure of a set, ready to judge with. */
export type Limit = {
  readonly id: string;
  readonly set: string;
  readonly title: string;
  readonly measure: string;
  /** unit of value, ends and margin; figures published in inches are held in mm */
  readonly unit: MeasureUnit;
  readonly published: PublishedUnit;
  readonly wanted: Wanted;
  readonly aim: 'low' | 'middle' | 'high' | null;
  /** the band closeness is counted over; its own ends when null */
  readonly scale: { readonly min: number; readonly max: number } | null;
  readonly grade: LimitGrade;
  readonly critical: boolean;
  /** false: shown as advice, never decides */
  readonly decides: boolean;
  readonly source: Source;
  readonly note: string | null;
  /** when it is in force, as written, to tell a reader; null is always. `inForce` tests it */
  readonly when: Condition | null;
  /** its ends as written, in `published` units, to tell a reader; null where it has none */
  readonly asWritten: { readonly min: LimitEndFile | null; readonly max: LimitEndFile | null };
  readonly inForce: Test;
  readonly read: Reader;
};

export type LimitSet = {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly edition: string;
  readonly caution: string;
  readonly basis: 'published' | 'practice' | 'own';
  readonly limits: readonly Limit[];
};

export type ReadLimitSet =
  | { readonly ok: true; readonly set: LimitSet }
  | { readonly ok: false; readonly error: Problem };

/** A limit set from a parsed file, compiled once, or the first problem with it. Never throws. */
export function readLimitSet(value: unknown): ReadLimitSet {
  const parsed = LimitSetSchema.safeParse(value);
  if (!parsed.success) return { ok: false, error: describeProblem(parsed.error, 'The limit set') };
  return { ok: true, set: compileLimitSet(parsed.data) };
}

function compileLimitSet(file: LimitSetFile): LimitSet {
  const { id, version, title, edition, caution, basis } = file;
  const limits = file.limits.map((limit) => compileLimit(limit, file));
  return { id, version, title, edition, caution, basis, limits };
}

/** A figure from memory never decides; one of common practice only where practice is the rule. */
const decidesWhen = (seen: Seen, basis: LimitSetFile['basis']): boolean =>
  seen !== 'memory' && (seen !== 'practice' || basis === 'practice');

function compileLimit(limit: LimitFile, set: LimitSetFile): Limit {
  return {
    id: limit.id,
    set: set.id,
    title: limit.title,
    measure: limit.measure,
    unit: limit.unit === 'in' ? 'mm' : limit.unit,
    published: limit.unit,
    wanted: compileWanted(limit),
    aim: limit.aim ?? null,
    scale: compileScale(limit),
    grade: limit.grade,
    critical: limit.critical,
    decides: decidesWhen(limit.source.seen, set.basis),
    source: resolveSource(limit.source, set.documents),
    note: limit.note ?? null,
    when: limit.when ?? null,
    asWritten: { min: limit.min ?? null, max: limit.max ?? null },
    inForce: limit.when === undefined ? ALWAYS : compileCondition(limit.when),
    read: limit.fitted === undefined ? readSubject(limit.measure) : readFitted(limit.measure),
  };
}

function readFitted(path: string): Reader {
  const read = readField(path);
  return (root, measures) => read(root, measures) !== null;
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

const unitScale = (unit: PublishedUnit): number => (unit === 'in' ? MM_PER_INCH : 1);

function compileScale({ scale, unit }: LimitFile): Limit['scale'] {
  if (scale === undefined) return null;
  return { min: scale[0] * unitScale(unit), max: scale[1] * unitScale(unit) };
}

function compileWanted(limit: LimitFile): Wanted {
  if (limit.fitted !== undefined) return { kind: 'fitted', fitted: limit.fitted };
  if (limit.is !== undefined) return { kind: 'word', allowed: [limit.is] };
  if (limit.oneOf !== undefined) return { kind: 'word', allowed: limit.oneOf };
  const scale = unitScale(limit.unit);
  return {
    kind: 'size',
    min: limit.min === undefined ? null : compileEnd(limit.min, scale),
    minInclusive: limit.minInclusive,
    max: limit.max === undefined ? null : compileEnd(limit.max, scale),
    maxInclusive: limit.maxInclusive,
  };
}

/** @param scale from the published unit to that of the measure; bench fields are in the latter */
function compileEnd(end: LimitEndFile, scale: number): EndReader {
  if (typeof end === 'number') {
    const figure = end * scale;
    return () => figure;
  }
  if (typeof end === 'string') {
    const read = readSubject(end);
    return (root, measures) => {
      const value = read(root, measures);
      return typeof value === 'number' ? value : null;
    };
  }
  const smaller = 'smallerOf' in end;
  const readers = (smaller ? end.smallerOf : end.largerOf).map((one) => compileEnd(one, scale));
  const pick = smaller ? Math.min : Math.max;
  return (root, measures) =>
    readers.reduce<number | null>((best, read) => {
      const value = read(root, measures);
      if (best === null || value === null) return best ?? value;
      return pick(best, value);
    }, null);
}
