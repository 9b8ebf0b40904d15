import type { Limit, Source, Wanted } from './limit.ts';
import type { ChangeFile } from './limit-schema.ts';
import { unitScale } from './published-unit.ts';

/** A change that cannot be made: the field of the change to mend, and what it must be. */
type Refusal = { readonly ok: false; readonly field: string; readonly message: string };
type Changed = { readonly ok: true; readonly limit: Limit } | Refusal;

type Making = {
  readonly set: string;
  readonly source: Source;
  /** whether a figure seen in that way decides in this set */
  readonly decides: boolean;
  /** `stricter`: what the set extended asks stays asked */
  readonly changes: 'any' | 'stricter';
};

const refuse = (field: string, message: string): Refusal => ({ ok: false, field, message });

/**
 * A limit with another figure, grade or source. It is named after the set that changes it:
 * `gb.knife.gap` becomes `own.knife.gap`. A figure with a source of its own decides, also where the
 * one it replaces was from memory.
 */
export function changeLimit(limit: Limit, change: ChangeFile, making: Making): Changed {
  const { set, source, decides } = making;
  const published = change.unit ?? limit.published;
  if (change.unit !== undefined && !sameKind(change.unit, limit)) {
    return refuse('unit', `must be ${limit.unit === 'mm' ? 'mm or in' : limit.unit}`);
  }
  const wanted = changeWanted(limit, change, unitScale(published), making);
  if ('ok' in wanted) return wanted;
  const grade = change.grade ?? limit.grade;
  const critical = change.critical ?? limit.critical;
  if (making.changes === 'stricter') {
    if (limit.grade === 'must' && grade === 'should') {
      return refuse('grade', `must stay must, as in ${limit.id}`);
    }
    if (limit.critical && !critical) return refuse('critical', `must stay true, as in ${limit.id}`);
    if (limit.decides && !decides) {
      return refuse('source.seen', `must be primary or secondary: ${limit.id} decides`);
    }
  }
  if (critical && grade === 'should') {
    return refuse('critical', 'can be true only when grade is must');
  }
  if (critical && !decides) {
    return refuse('critical', 'must be false for a figure that never decides');
  }
  return {
    ok: true,
    limit: {
      ...limit,
      id: `${set}${limit.id.slice(limit.id.indexOf('.'))}`,
      title: change.title ?? limit.title,
      published,
      wanted,
      scale: limit.scale === null || wanted.kind !== 'size' ? null : narrow(limit.scale, wanted),
      grade,
      critical,
      decides,
      source,
      note: change.note ?? limit.note,
      asWritten: { min: change.min ?? limit.asWritten.min, max: change.max ?? limit.asWritten.max },
      changes: limit.id,
    },
  };
}

const sameKind = (unit: string, limit: Limit): boolean =>
  unit === limit.unit || (unit === 'in' && limit.unit === 'mm');

/** The band closeness is counted over, no wider than the new figures. */
function narrow(
  scale: NonNullable<Limit['scale']>,
  { min, max }: Extract<Wanted, { kind: 'size' }>,
): NonNullable<Limit['scale']> {
  return {
    min: typeof min === 'number' ? Math.max(scale.min, min) : scale.min,
    max: typeof max === 'number' ? Math.min(scale.max, max) : scale.max,
  };
}

function changeWanted(
  limit: Limit,
  change: ChangeFile,
  scale: number,
  making: Making,
): Wanted | Refusal {
  const { wanted } = limit;
  const hasEnds = [change.min, change.max, change.minInclusive, change.maxInclusive].some(
    (end) => end !== undefined,
  );
  if (hasEnds && wanted.kind !== 'size') {
    const field = change.min === undefined && change.minInclusive === undefined ? 'max' : 'min';
    return refuse(field, `does not fit ${limit.measure}`);
  }
  if (change.oneOf !== undefined && wanted.kind !== 'word') {
    return refuse('oneOf', `does not fit ${limit.measure}`);
  }
  if (wanted.kind === 'size') return changeEnds(wanted, limit, change, scale, making);
  if (wanted.kind === 'fitted' || change.oneOf === undefined) return wanted;
  const strange = change.oneOf.find((word) => !wanted.allowed.includes(word));
  if (strange !== undefined) {
    return refuse('oneOf', `must be some of: ${wanted.allowed.join(', ')}`);
  }
  return { kind: 'word', allowed: change.oneOf };
}

type Size = Extract<Wanted, { kind: 'size' }>;

function changeEnds(
  wanted: Size,
  limit: Limit,
  change: ChangeFile,
  scale: number,
  making: Making,
): Size | Refusal {
  const changed: Size = {
    kind: 'size',
    min: change.min === undefined ? wanted.min : change.min * scale,
    minInclusive: change.minInclusive ?? wanted.minInclusive,
    max: change.max === undefined ? wanted.max : change.max * scale,
    maxInclusive: change.maxInclusive ?? wanted.maxInclusive,
  };
  const { min, max } = changed;
  if (typeof min === 'number' && typeof max === 'number' && min > max) {
    return refuse(change.max === undefined ? 'min' : 'max', 'must leave room between min and max');
  }
  if (making.changes === 'any') return changed;
  const loose = looserEnd(wanted, changed);
  if (loose === null) return changed;
  const was = wanted[loose];
  if (typeof was !== 'number') {
    return refuse(
      loose,
      `cannot be held against ${limit.id}, whose figure hangs on the bench; add a limit instead`,
    );
  }
  const word = loose === 'min' ? 'at least' : 'at most';
  const unit = limit.unit !== 'mm' ? '' : scale === 1 ? ' mm' : ' in';
  const figure = `${Number((was / scale).toFixed(6))}${unit}`;
  return refuse(loose, `must be ${word} ${figure}, to be as strict as ${limit.id}`);
}

/** The end at which a value could pass now that failed before, if there is one. */
function looserEnd(was: Size, now: Size): 'min' | 'max' | null {
  if (now.min !== was.min || now.minInclusive !== was.minInclusive) {
    const holds =
      was.min === null ||
      (typeof was.min === 'number' &&
        typeof now.min === 'number' &&
        (now.min > was.min || (now.min === was.min && (was.minInclusive || !now.minInclusive))));
    if (!holds) return 'min';
  }
  if (now.max !== was.max || now.maxInclusive !== was.maxInclusive) {
    const holds =
      was.max === null ||
      (typeof was.max === 'number' &&
        typeof now.max === 'number' &&
        (now.max < was.max || (now.max === was.max && (was.maxInclusive || !now.maxInclusive))));
    if (!holds) return 'max';
  }
  return null;
}
