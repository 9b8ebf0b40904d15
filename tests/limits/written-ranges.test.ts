import { describe, expect, test } from 'vitest';
import {
  type Limit,
  readFaults,
  readLimitSet,
  sayLimit,
  saySource,
  sayValue,
} from '../../src/limits/index.ts';

/** How long a text may be and how early a year, at the very edge and one past it. */

type Group = Record<string, unknown>;
const text = (length: number) => 'x'.repeat(length);

/** The group with the field at `path` (keys joined by dots) put to `value`. */
function put(group: Group, path: string, value: unknown): Group {
  const copy = structuredClone(group);
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  const holder = keys.reduce<Group>((at, key) => at[key] as Group, copy);
  holder[last] = value;
  return copy;
}

const FAULTS: Group = {
  schema: 'faults/1',
  part: 'place',
  faults: [
    {
      id: 'a-fault',
      title: 'A fault',
      looks: 'It looks so.',
      from: 'From here.',
      why: 'It matters.',
      do: 'Mend it.',
      remedies: ['put-right'],
      severity: 'warning',
      critical: false,
      when: { of: 'place.litter', is: true },
      source: { document: 'A text', clause: '1', seen: 'primary' },
    },
  ],
};

const SET: Group = {
  schema: 'limits/1',
  id: 'own',
  version: 1,
  title: 'Workshop rules',
  edition: 'Agreed',
  caution: 'Not the law.',
  basis: 'own',
  documents: { rules: { title: 'Rules', year: 2024 } },
  limits: [
    {
      id: 'own.gap',
      title: 'Gap',
      measure: 'knife.gapMax',
      max: 6,
      unit: 'mm',
      source: { document: 'rules', clause: '1', seen: 'primary' },
      note: 'Ours.',
    },
  ],
};

const saidOfFaults = (file: Group): string => {
  const read = readFaults(file);
  return read.ok ? 'accepted' : read.error.message;
};
const saidOfSet = (file: Group): string => {
  const read = readLimitSet(file);
  return read.ok ? 'accepted' : read.error.message;
};

describe('a fault as written', () => {
  test.each<[string, number]>([
    ['title', 80],
    ['looks', 400],
    ['from', 200],
    ['why', 500],
    ['do', 400],
    ['source.document', 200],
    ['source.clause', 120],
  ])('has a %s of at most %d characters', (field, most) => {
    const path = `faults.0.${field}`;
    expect(saidOfFaults(put(FAULTS, path, text(most)))).toBe('accepted');
    expect(saidOfFaults(put(FAULTS, path, 'x'))).toBe('accepted');
    const must = `faults[0].${field} must be text of 1 to ${most} characters.`;
    for (const wrong of [text(most + 1), '', '   ']) {
      expect(saidOfFaults(put(FAULTS, path, wrong))).toBe(must);
    }
  });

  test('has an id of at most 60 characters', () => {
    expect(saidOfFaults(put(FAULTS, 'faults.0.id', text(60)))).toBe('accepted');
    expect(saidOfFaults(put(FAULTS, 'faults.0.id', text(61)))).toMatch(/at most 60 characters\.$/);
  });

  test('is kept without the spaces around its words', () => {
    const read = readFaults(put(FAULTS, 'faults.0.title', '  A fault \n'));
    expect(read.ok && read.entries[0]?.fault.title).toBe('A fault');
  });
});

describe('a limit set as written', () => {
  test.each<[string, string, number]>([
    ['title', 'title', 120],
    ['edition', 'edition', 300],
    ['caution', 'caution', 600],
    ['documents.rules.title', 'documents.rules.title', 200],
    ['limits.0.title', 'limits[0].title', 120],
    ['limits.0.note', 'limits[0].note', 400],
    ['limits.0.source.clause', 'limits[0].source.clause', 120],
  ])('has a %s of at most so many characters', (path, name, most) => {
    expect(saidOfSet(put(SET, path, text(most)))).toBe('accepted');
    const must = `${name} must be text of 1 to ${most} characters.`;
    expect(saidOfSet(put(SET, path, text(most + 1)))).toBe(must);
  });

  test('has documents of the years 1800 to 2100', () => {
    const of = (year: unknown) => saidOfSet(put(SET, 'documents.rules.year', year));
    expect([1800, 2100].map(of)).toEqual(['accepted', 'accepted']);
    for (const year of [1799, 2101, -1]) {
      expect(of(year)).toBe('documents.rules.year must be a year from 1800 to 2100.');
    }
    for (const year of [1990.5, Number.NaN, Number.POSITIVE_INFINITY, '1990']) {
      expect(of(year)).toBe('documents.rules.year must be a year.');
    }
  });

  test('takes the smaller of two figures or more, never of one', () => {
    const of = (list: unknown) => saidOfSet(put(SET, 'limits.0.max', { smallerOf: list }));
    expect(of([6, 8])).toBe('accepted');
    expect(of([6, 8, 'knife.play'])).toBe('accepted');
    expect(of([6])).toMatch(/^limits\[0\]\.max/);
  });

  test('may ask for exactly one figure: a least and a greatest that are the same', () => {
    expect(saidOfSet(put(SET, 'limits.0.min', 6))).toBe('accepted');
    expect(saidOfSet(put(SET, 'limits.0.min', 6.1))).toBe(
      'limits[0].max must be at least min (6.1).',
    );
    // an end on the bench cannot be held against a figure here
    expect(saidOfSet(put(SET, 'limits.0.min', 'knife.play'))).toBe('accepted');
    expect(saidOfSet(put(SET, 'limits.0.min', 'job.cut'))).toMatch(/^limits\[0\]\.min must be/);
  });

  test('counts closeness over a band that is not empty', () => {
    const of = (scale: number[]) =>
      saidOfSet(put(put(SET, 'limits.0.scale', scale), 'limits.0.aim', 'middle'));
    expect(of([3, 8])).toBe('accepted');
    expect(of([3, 3])).toBe('limits[0].scale must list the least first.');
  });
});

describe('a limit as read', () => {
  const limitOf = (file: Group): Limit => {
    const read = readLimitSet(file);
    const [limit] = read.ok ? read.set.limits : [];
    if (limit === undefined) throw new Error(saidOfSet(file));
    return limit;
  };
  const withLimit = (over: Group) =>
    put(SET, 'limits.0', { ...(SET['limits'] as Group[])[0], ...over });

  test('keeps its note, its condition and its ends as they were written', () => {
    const when = { of: 'job.cut', is: 'rip' };
    const limit = limitOf(withLimit({ when, min: 0.1, max: 0.25, unit: 'in' }));
    expect(limit).toMatchObject({ note: 'Ours.', when, asWritten: { min: 0.1, max: 0.25 } });
    const bare = limitOf(withLimit({ note: undefined, max: undefined, min: 1 }));
    expect(bare).toMatchObject({ note: null, when: null, asWritten: { min: 1, max: null } });
  });

  test('counts closeness over a band in millimetres, written in inches', () => {
    const limit = limitOf(withLimit({ unit: 'in', aim: 'middle', scale: [1, 3] }));
    expect(limit.scale?.min).toBeCloseTo(25.4, 9);
    expect(limit.scale?.max).toBeCloseTo(76.2, 9);
  });

  test('has a source with just the clause and year that are known', () => {
    const { source } = limitOf(put(SET, 'documents.rules', { title: 'Rules' }));
    expect(Object.keys(source)).toEqual(['document', 'clause', 'seen']);
    expect(saySource(source)).toBe('Rules, 1 (read in the text itself)');
    const whole = limitOf(withLimit({ source: { document: 'rules', seen: 'secondary' } })).source;
    expect(Object.keys(whole)).toEqual(['document', 'year', 'seen']);
    expect(saySource(whole)).toBe('Rules, 2024 (read in a text that quotes it)');
  });

  test('is said in words: a part fitted or not, an end in it or not', () => {
    const said = (over: Group, ends = { min: null, max: 6 }) =>
      sayLimit(limitOf(withLimit(over)), ends as { min: null; max: number }, 'mm');
    const fitted = { measure: 'knife', max: undefined, unit: 'yes/no' };
    expect(said({ ...fitted, fitted: true })).toBe('fitted');
    expect(said({ ...fitted, fitted: false })).toBe('not fitted');
    expect(said({})).toBe('at most 6 mm');
    expect(said({ maxInclusive: false })).toBe('less than 6 mm');
    expect(sayValue(12, 'count', 'mm')).toBe('12');
    expect(sayValue(1.5, '1', 'mm')).toBe('1.5');
    expect(sayValue(9.8, 's', 'mm')).toBe('9.8 s');
  });

  test('that wants one of no words is refused', () => {
    const none = withLimit({ measure: 'underGuard', max: undefined, oneOf: [], unit: 'word' });
    expect(saidOfSet(none)).toMatch(/^limits\[0\]\.oneOf /);
    const two = { measure: 'underGuard', max: undefined, oneOf: ['enclosed', 'side-plates'] };
    expect(saidOfSet(withLimit({ ...two, unit: 'word' }))).toBe('accepted');
  });
});
