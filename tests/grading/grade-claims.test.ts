import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Claim,
  type ClaimsGrade,
  ClaimsSchema,
  gradeClaims,
  SEVERITY_WEIGHT,
} from '../../src/grading/index.ts';
import { REMEDY_IDS } from '../../src/limits/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { FAULTY_BENCHES } from '../helpers/faulty-benches.ts';
import { CATALOGUE, limitSet } from '../helpers/rules.ts';

/** A cracked gullet (danger 4), a dull blade (warning 2) and litter (warning 2): 8 in all. */
const THREE: BenchOverrides = {
  blade: { condition: { cracks: [{ length: 12, at: 'gullet' }], sharpness: 'dull' } },
  place: { litter: true },
};

const crack: Claim = { part: 'blade', fault: 'cracked-gullet', remedy: 'take-out-of-service' };
const dull: Claim = { part: 'blade', fault: 'dull-blade', remedy: 'put-right' };
const litter: Claim = { part: 'place', fault: 'litter', remedy: 'put-right' };
const ALL_THREE = [crack, dull, litter];

function grade(claims: readonly Claim[], overrides: BenchOverrides = THREE): ClaimsGrade {
  return gradeClaims({
    bench: makeBench(overrides),
    sets: [limitSet('gb')],
    catalogue: CATALOGUE,
    claims,
  });
}

const everything = (): Claim[] =>
  CATALOGUE.entries.map(({ fault }) => ({
    part: fault.part,
    fault: fault.id,
    remedy: fault.remedies[0] ?? 'report',
  }));

describe('claims against the faults of a bench', () => {
  test('all found and rightly dealt with is 100', () => {
    expect(grade(ALL_THREE)).toMatchObject({
      score: 100,
      missed: [],
      wrong: [],
      criticalMissed: [],
      remedies: { right: 3, of: 3 },
      sensitivity: 1,
      falseAlarms: 0,
      falseAlarmRate: 0,
    });
  });

  test('nothing said is 0, and says what was missed', () => {
    const result = grade([]);
    expect(result).toMatchObject({ score: 0, sensitivity: 0, criticalMissed: ['cracked-gullet'] });
    expect(result.missed.map(({ id }) => id)).toEqual(['cracked-gullet', 'dull-blade', 'litter']);
    expect(result.missed[0]?.why).toContain('crack');
  });

  test('weighs by severity: the crack missed costs half, the litter a quarter', () => {
    expect(SEVERITY_WEIGHT).toEqual({ danger: 4, warning: 2, caution: 1 });
    expect(grade([dull, litter]).score).toBe(50);
    expect(grade([crack, dull]).score).toBe(75);
    expect(grade([crack, dull]).sensitivity).toBeCloseTo(2 / 3, 12);
  });

  test('a find dealt with wrongly earns half', () => {
    const result = grade([{ ...crack, remedy: 'put-right' }, dull, litter]);
    expect(result).toMatchObject({ score: 75, remedies: { right: 2, of: 3 }, sensitivity: 1 });
    expect(result.found.map(({ remedyRight }) => remedyRight)).toEqual([false, true, true]);
  });

  test('a claim on a part where nothing is wrong is a false alarm and costs its weight', () => {
    const alarm: Claim = { part: 'knife', fault: 'knife-play', remedy: 'put-right' };
    expect(grade([...ALL_THREE, alarm])).toMatchObject({
      score: 50,
      wrong: [{ claim: alarm, kind: 'false-alarm' }],
      falseAlarms: 1,
    });
    expect(grade([...ALL_THREE, alarm]).falseAlarmRate).toBeCloseTo(
      1 / (CATALOGUE.entries.length - 3),
      12,
    );
  });

  test('the right part with the wrong fault costs half and finds nothing', () => {
    const near: Claim = { part: 'blade', fault: 'burnt-blade', remedy: 'take-out-of-service' };
    const result = grade([crack, near, litter]);
    expect(result.wrong).toEqual([{ claim: near, kind: 'right-part' }]);
    expect(result.falseAlarms).toBe(0);
    expect(result.missed.map(({ id }) => id)).toEqual(['dull-blade']);
    expect(result.score).toBe(62.5);
  });

  test('the right fault named on the wrong part is not found', () => {
    const misplaced: Claim = { ...litter, part: 'knife' };
    const result = grade([crack, dull, misplaced]);
    expect(result.missed.map(({ id }) => id)).toEqual(['litter']);
    expect(result.wrong).toEqual([{ claim: misplaced, kind: 'false-alarm' }]);
  });

  test('a fault the catalogue does not know costs as much as a danger', () => {
    const unknown: Claim = { part: 'knife', fault: 'knife-haunted', remedy: 'report' };
    expect(grade([...ALL_THREE, unknown]).score).toBe(50);
  });

  test('of two claims of one fault the later stands', () => {
    const wrongFirst = [{ ...crack, remedy: 'put-right' as const }, dull, litter, crack];
    expect(grade(wrongFirst).score).toBe(100);
    expect(grade([...ALL_THREE, { ...crack, remedy: 'put-right' }]).score).toBe(75);
    expect(grade([...ALL_THREE, crack]).found).toHaveLength(3);
  });

  test('more than one remedy can be right', () => {
    expect(grade([crack, { ...dull, remedy: 'take-out-of-service' }, litter]).score).toBe(100);
  });

  test('a limit in force makes the fault: the same claim is right under gb, an alarm under us-ca', () => {
    const claims: Claim[] = [{ part: 'knife', fault: 'knife-too-far', remedy: 'put-right' }];
    const bench = makeBench({ knife: { edgeRadius: 210, along: 0 } });
    const under = (set: string) =>
      gradeClaims({ bench, sets: [limitSet(set)], catalogue: CATALOGUE, claims });
    expect(under('gb')).toMatchObject({ score: 100, falseAlarms: 0 });
    expect(under('us-ca')).toMatchObject({ score: 0, falseAlarms: 1 });
  });
});

describe('a sound bench', () => {
  test('left alone is 100', () => {
    expect(grade([], {})).toMatchObject({ score: 100, sensitivity: null, missed: [], found: [] });
  });

  test('loses the weight of each false alarm out of one danger', () => {
    expect(grade([litter], {}).score).toBe(50);
    expect(grade([crack], {}).score).toBe(0);
  });
});

describe('guessing', () => {
  test('marking the whole list scores nothing, on every faulty bench', () => {
    for (const { bench, fault } of FAULTY_BENCHES) {
      expect(grade(everything(), bench).score, fault).toBe(0);
    }
  });

  test('marking every fault of the faulty parts scores less than naming the right ones', () => {
    const parts = everything().filter(({ part }) => part === 'blade' || part === 'place');
    expect(grade(parts).score).toBe(0);
  });

  test('one more wrong claim never raises the score, one more find with a right remedy never lowers it', () => {
    const subset = fc.subarray(everything());
    fc.assert(
      fc.property(subset, fc.constantFrom(...everything()), (claims, extra) => {
        const before = grade(claims).score;
        const after = grade([...claims.filter(({ fault }) => fault !== extra.fault), extra]).score;
        const isPresent = ['cracked-gullet', 'dull-blade', 'litter'].includes(extra.fault);
        if (isPresent) expect(after).toBeGreaterThanOrEqual(before);
        else expect(after).toBeLessThanOrEqual(before);
      }),
      { seed: 41, numRuns: 200 },
    );
  });

  test('the score stays between 0 and 100', () => {
    const claim = fc.record({
      part: fc.constantFrom(...everything().map(({ part }) => part)),
      fault: fc.constantFrom(...everything().map(({ fault }) => fault), 'unknown'),
      remedy: fc.constantFrom(...REMEDY_IDS),
    });
    fc.assert(
      fc.property(fc.array(claim, { maxLength: 30 }), (claims) => {
        const { score, falseAlarmRate } = grade(claims);
        expect(score).toBeGreaterThanOrEqual(0);
        expect(score).toBeLessThanOrEqual(100);
        expect(falseAlarmRate).toBeLessThanOrEqual(1);
      }),
      { seed: 42, numRuns: 200 },
    );
  });
});

describe('claims as they arrive', () => {
  test.each([
    [[{ ...crack, part: 'roof' }], 'must be one of: blade, arbor'],
    [[{ ...crack, remedy: 'shrug' }], 'must be one of: stop-isolate, put-right'],
    [[{ ...crack, fault: 'Cracked Gullet' }], 'must be the id of a fault'],
    [[{ part: 'blade' }], 'must be the id of a fault'],
    [[{ ...crack, sure: true }], 'must be a claim: part, fault and remedy'],
    [Array.from({ length: 201 }, () => crack), 'must list at most 200 claims'],
    ['none', 'must be a list of claims'],
  ])('%#: %s', (value, message) => {
    const parsed = ClaimsSchema.safeParse(value);
    expect(parsed.error?.issues[0]?.message).toContain(message);
  });
});
