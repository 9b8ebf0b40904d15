import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureExposure, type Sitting } from '../../../src/grading/index.ts';

const sitting = (person: string, form: string, ...items: string[]): Sitting => ({
  person,
  form,
  items,
});

const sittings = fc.array(
  fc.record({
    person: fc.constantFrom('a', 'b', 'c'),
    form: fc.constantFrom('1', '2', '3', '4'),
    items: fc.uniqueArray(fc.constantFrom('p', 'q', 'r', 's', 't'), { minLength: 1, maxLength: 5 }),
  }),
  { minLength: 2, maxLength: 20 },
);

/** Twin: every pair of sittings, looked at. */
function slowOverlaps(list: readonly Sitting[]) {
  let [pairs, forms, items] = [0, 0, 0];
  list.forEach((first, i) => {
    list.slice(i + 1).forEach((second) => {
      pairs += 1;
      if (first.form === second.form) forms += 1;
      items += first.items.filter((item) => second.items.includes(item)).length;
    });
  });
  const length = list.reduce((sum, one) => sum + one.items.length, 0) / list.length;
  return { forms: forms / pairs, items: items / pairs / length };
}

describe('exposure', () => {
  test('counts sittings and people, most seen first', () => {
    const found = measureExposure([
      sitting('mira', 'A', 'crack', 'gap'),
      sitting('tom', 'A', 'crack', 'dull'),
      sitting('tom', 'B', 'crack', 'gap'),
      sitting('tom', 'A', 'litter', 'dull'),
    ]);
    expect(found.forms).toEqual([
      { id: 'A', sittings: 3, rate: 0.75, people: 2 },
      { id: 'B', sittings: 1, rate: 0.25, people: 1 },
    ]);
    expect(found.items.map(({ id, sittings: n }) => [id, n])).toEqual([
      ['crack', 3],
      ['dull', 2],
      ['gap', 2],
      ['litter', 1],
    ]);
    expect(found.repeats).toBe(1);
    // pairs with one form 3 of 6; shared items 3 + 1 + 1 over 6 pairs and a length of 2
    expect(found.formOverlap).toBeCloseTo(0.5, 12);
    expect(found.itemOverlap).toBeCloseTo(5 / 12, 12);
  });

  test('equals a look at every pair', () => {
    fc.assert(
      fc.property(sittings, (list) => {
        const { formOverlap, itemOverlap } = measureExposure(list);
        const slow = slowOverlaps(list);
        expect(formOverlap).toBeCloseTo(slow.forms, 10);
        expect(itemOverlap).toBeCloseTo(slow.items, 10);
      }),
    );
  });

  test('is 0 when every bench is new and 1 when it never changes', () => {
    const fresh = ['1', '2', '3'].map((form) => sitting('mira', form, `item ${form}`));
    const stale = ['mira', 'tom', 'jess'].map((person) => sitting(person, '1', 'x', 'y'));
    expect(measureExposure(fresh)).toMatchObject({ repeats: 0, formOverlap: 0, itemOverlap: 0 });
    expect(measureExposure(stale)).toMatchObject({ repeats: 0, formOverlap: 1, itemOverlap: 1 });
  });

  test('counts an item named twice in one sitting once', () => {
    const found = measureExposure([sitting('mira', '1', 'x', 'x'), sitting('tom', '2', 'x')]);
    expect(found.items).toEqual([{ id: 'x', sittings: 2, rate: 1, people: 2 }]);
    expect(found.itemOverlap).toBe(1);
  });

  test('has no overlap to speak of without a pair, or without items', () => {
    const one = measureExposure([sitting('mira', '1', 'x')]);
    expect(one).toMatchObject({ sittings: 1, formOverlap: null, itemOverlap: null });
    expect(measureExposure([])).toMatchObject({ sittings: 0, forms: [], formOverlap: null });
    const bare = measureExposure([sitting('mira', '1'), sitting('tom', '1')]);
    expect(bare).toMatchObject({ formOverlap: 1, itemOverlap: null });
  });
});
