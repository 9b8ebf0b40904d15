import { z } from 'zod';
import { choice, group, yesNo } from './fields.ts';
import type { Scope, Subject } from './subject.ts';

export type Plain = string | number | boolean;

/**
 * A condition on the bench, as content files write it. One of:
 * - `all`, `any`, `not`: other conditions;
 * - `of`: a measure or field, with one or more comparisons, all of which must hold. When there is
 *   nothing to compare (the part is off) every comparison is false except `missing: true`;
 * - `outside`: measures, with `end`: a limit in force on one of them fails at that end. Faults only.
 */
export type Condition = {
  readonly all?: readonly Condition[] | undefined;
  readonly any?: readonly Condition[] | undefined;
  readonly not?: Condition | undefined;
  readonly outside?: readonly string[] | undefined;
  readonly end?: 'min' | 'max' | 'any' | undefined;
  readonly of?: string | undefined;
  readonly is?: Plain | undefined;
  readonly isNot?: Plain | undefined;
  readonly oneOf?: readonly string[] | undefined;
  readonly noneOf?: readonly string[] | undefined;
  readonly above?: number | string | undefined;
  readonly below?: number | string | undefined;
  readonly atLeast?: number | string | undefined;
  readonly atMost?: number | string | undefined;
  readonly empty?: boolean | undefined;
  readonly missing?: boolean | undefined;
  readonly some?: Condition | undefined;
};

const plain = z.union([z.string(), z.number(), z.boolean()], {
  error: 'must be a word, a number, true or false',
});
const words = z.array(z.string({ error: 'must be a word' }), { error: 'must be a list of words' });
/** a number, or the name of a measure or field to compare with */
const amount = z.union([z.number(), z.string()], {
  error: 'must be a number or the name of a measure or field',
});
const name = z.string({ error: 'must be the name of a measure or field' });

export const ConditionSchema: z.ZodType<Condition> = z.lazy(() => {
  const several = z.array(ConditionSchema, { error: 'must be a list of conditions' }).min(1, {
    error: 'must hold at least one condition',
  });
  return group({
    all: several.optional(),
    any: several.optional(),
    not: ConditionSchema.optional(),
    outside: z
      .array(name, { error: 'must be a list of measures' })
      .min(1, { error: 'must name at least one measure' })
      .optional(),
    end: choice(['min', 'max', 'any']).optional(),
    of: name.optional(),
    is: plain.optional(),
    isNot: plain.optional(),
    oneOf: words.optional(),
    noneOf: words.optional(),
    above: amount.optional(),
    below: amount.optional(),
    atLeast: amount.optional(),
    atMost: amount.optional(),
    empty: yesNo().optional(),
    missing: yesNo().optional(),
    some: ConditionSchema.optional(),
  });
});

const KINDS = ['all', 'any', 'not', 'outside', 'of'] as const;
const ORDERINGS = ['above', 'below', 'atLeast', 'atMost'] as const;
const COMPARISONS = [
  'is',
  'isNot',
  'oneOf',
  'noneOf',
  ...ORDERINGS,
  'empty',
  'missing',
  'some',
] as const;

type Path = readonly (string | number)[];
type Report = (path: Path, message: string) => void;

/** Where a condition stands: what names mean there, and whether it may speak of failed limits. */
export type Setting = { readonly scope: Scope; readonly verdicts: 'known' | 'unknown' };

/** Reports every name, word and operator in a condition that could never mean anything. */
export function checkCondition(condition: Condition, setting: Setting, report: Report): void {
  const kinds = KINDS.filter((kind) => condition[kind] !== undefined);
  if (kinds.length !== 1) {
    report([], 'must have exactly one of: all, any, not, of, outside');
    return;
  }
  const below =
    (...path: Path): Report =>
    (rest, message) =>
      report([...path, ...rest], message);
  if (condition.of === undefined && COMPARISONS.some((key) => condition[key] !== undefined)) {
    report([], 'compares something, so it must say what with: of');
  }
  if (condition.end !== undefined && condition.outside === undefined) {
    report(['end'], 'goes only with: outside');
  }
  condition.all?.forEach((one, i) => {
    checkCondition(one, setting, below('all', i));
  });
  condition.any?.forEach((one, i) => {
    checkCondition(one, setting, below('any', i));
  });
  if (condition.not !== undefined) checkCondition(condition.not, setting, below('not'));
  if (condition.outside !== undefined) checkOutside(condition.outside, setting, report);
  if (condition.of !== undefined) checkComparison(condition.of, condition, setting, report);
}

function checkOutside(names: readonly string[], setting: Setting, report: Report): void {
  if (setting.verdicts === 'unknown') {
    report(['outside'], 'can stand only in the condition of a fault');
    return;
  }
  names.forEach((one, i) => {
    if (setting.scope.find(one) === null) {
      report(['outside', i], 'must be a known measure or bench field');
    }
  });
}

function checkComparison(of: string, condition: Condition, setting: Setting, report: Report): void {
  const subject = setting.scope.find(of);
  if (subject === null) {
    report(['of'], 'must be a known measure or bench field');
    return;
  }
  const used = COMPARISONS.filter((key) => condition[key] !== undefined);
  if (used.length === 0) report([], `must compare ${of}, with one of: ${COMPARISONS.join(', ')}`);
  for (const key of used) {
    if (key === 'missing') continue;
    if (!FITTING[subject.kind].includes(key)) {
      report([key], `cannot be asked of ${of}, which is ${SAID[subject.kind]}`);
    }
  }
  checkWords(of, subject, condition, report);
  for (const key of ORDERINGS) {
    const value = condition[key];
    if (typeof value === 'string' && setting.scope.find(value)?.kind !== 'number') {
      report([key], 'must be a number, or name a measure or field that is one');
    }
  }
  if (condition.some !== undefined && subject.item !== undefined) {
    checkCondition(condition.some, { scope: subject.item, verdicts: 'unknown' }, (path, message) =>
      report(['some', ...path], message),
    );
  }
}

const FITTING: Readonly<Record<Subject['kind'], readonly string[]>> = {
  number: ['is', 'isNot', ...ORDERINGS],
  'yes/no': ['is', 'isNot'],
  word: ['is', 'isNot', 'oneOf', 'noneOf'],
  list: ['empty', 'some'],
  part: [],
};

const SAID: Readonly<Record<Subject['kind'], string>> = {
  number: 'a number',
  'yes/no': 'true or false',
  word: 'a word',
  list: 'a list',
  part: 'a whole part',
};

const TYPE_OF: Partial<Record<Subject['kind'], string>> = {
  number: 'number',
  'yes/no': 'boolean',
  word: 'string',
};

function checkWords(of: string, subject: Subject, condition: Condition, report: Report): void {
  const { words: known } = subject;
  const check = (value: Plain, path: Path): void => {
    const type = TYPE_OF[subject.kind];
    if (type !== undefined && typeof value !== type) {
      report(path, `must be ${SAID[subject.kind]}, as ${of} is`);
    } else if (known !== undefined && !known.includes(String(value))) {
      report(path, `must be one of: ${known.join(', ')}`);
    }
  };
  if (condition.is !== undefined) check(condition.is, ['is']);
  if (condition.isNot !== undefined) check(condition.isNot, ['isNot']);
  condition.oneOf?.forEach((value, i) => {
    check(value, ['oneOf', i]);
  });
  condition.noneOf?.forEach((value, i) => {
    check(value, ['noneOf', i]);
  });
}
