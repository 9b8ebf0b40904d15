import { describe, expect, test } from 'vitest';
import { measureBench } from '../../src/bench/index.ts';
import {
  collectFailedEnds,
  deriveFaults,
  findFaults,
  joinFaults,
  type LimitEnd,
  type LimitGrade,
  readFaults,
} from '../../src/limits/index.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { FAULTY_BENCHES } from '../helpers/faulty-benches.ts';
import { knifeAround } from '../helpers/oracle-case.ts';
import { CATALOGUE, judgeOne, limitSet, SETS } from '../helpers/rules.ts';
import { soundUnder } from '../helpers/sound-under.ts';

function faultsOf(
  sets: readonly string[],
  overrides: BenchOverrides = {},
  uncertainty = 0,
): string[] {
  const bench = makeBench(overrides);
  const rules = sets.map(limitSet);
  const faults = findFaults(bench, measureBench(bench), rules, CATALOGUE, uncertainty);
  return faults.map(({ id }) => id);
}

describe('every fault of the catalogue', () => {
  test('has a bench here on which it stands', () => {
    const shown = new Set(FAULTY_BENCHES.map(({ fault }) => fault));
    expect([...CATALOGUE.byId.keys()].filter((id) => !shown.has(id))).toEqual([]);
    expect([...shown].filter((id) => !CATALOGUE.byId.has(id))).toEqual([]);
  });

  for (const { fault, how, bench, set } of FAULTY_BENCHES) {
    test(`${fault} is found under ${set}: ${how}`, () => {
      expect(faultsOf([set], bench)).toContain(fault);
    });
  }

  test.each([...SETS.keys()])('is absent from the sound bench under %s', (set) => {
    expect(faultsOf([set], soundUnder(set))).toEqual([]);
  });

  test('says what to look for, from where, why it matters and what to do', () => {
    for (const { fault } of CATALOGUE.entries) {
      for (const text of [fault.looks, fault.from, fault.why, fault.do]) {
        expect(text, fault.id).toMatch(/^[A-Z].*[.]$/s);
      }
      expect(fault.title, fault.id).not.toMatch(/[.]$/);
    }
  });

  test('of the gravest kind stops the work', () => {
    const danger = CATALOGUE.entries.filter(({ fault }) => fault.severity === 'danger');
    expect(danger.filter(({ fault }) => !fault.critical).map(({ fault }) => fault.id)).toEqual([]);
  });
});

describe('one change, and nothing else is found', () => {
  const alone = FAULTY_BENCHES.filter(
    ({ fault }) => !['knife-missing', 'guard-missing'].includes(fault),
  );
  for (const { fault, how, bench, set } of alone) {
    test(`${fault}: ${how}`, () => {
      expect(faultsOf([set], bench)).toEqual([fault]);
    });
  }
});

describe('faults that hang on the job', () => {
  test('knife and guard may be off for grooving', () => {
    const off = { knife: null, guard: null, job: { cut: 'groove' as const } };
    for (const set of SETS.keys()) expect(faultsOf([set], off)).toEqual([]);
  });

  test('the knife may be off for crosscutting where the rule says so', () => {
    const off = { knife: null, job: { cut: 'crosscut' as const } };
    expect(faultsOf(['us-ca'], off)).toEqual([]);
    expect(faultsOf(['gb'], off)).toEqual(['knife-missing']);
  });

  test('fingers are asked for only where the rule asks', () => {
    const bare = { guard: { fingers: 'none' as const } };
    expect(faultsOf(['us-ca'], bare)).toEqual(['fingers-missing']);
    expect(faultsOf(['gb', 'eu', 'practice'], bare)).toEqual([]);
  });

  test('the fence is left alone when crosscutting', () => {
    const fence = {
      fence: { toe: -1, locked: false, end: 200 },
      job: { cut: 'crosscut' as const },
    };
    expect(faultsOf(['gb', 'practice'], fence)).toEqual([]);
  });

  test('a taker-off makes long stock right and a short table wrong', () => {
    const long = { job: { stock: { length: 2400 } }, table: { outfeed: 1199 } };
    const takeOff = { ...makeBench().people.operator, x: 1400 };
    expect(faultsOf(['gb'], long)).toEqual(['stock-tips']);
    expect(faultsOf(['gb'], { ...long, people: { takeOff } })).toEqual(['table-short']);
  });

  test('the operator stands clear of the strip on either side', () => {
    const at = (x: number, z: number) => faultsOf(['gb'], { people: { operator: { x, z } } });
    expect(at(-700, 0)).toEqual(['in-line-of-cut']);
    expect(at(-700, 150)).toEqual(['in-line-of-cut']);
    expect(at(-700, -1)).toEqual([]);
    expect(at(-700, 151)).toEqual([]);
    expect(at(700, 75)).toEqual([]);
  });
});

describe('faults that hang on a limit', () => {
  test('one bench, two rules', () => {
    expect(faultsOf(['gb'], knifeAround(10))).toEqual(['knife-too-far']);
    expect(faultsOf(['us-ca'], knifeAround(10))).toEqual([]);
    expect(faultsOf(['us-ca', 'gb'], knifeAround(10))).toEqual(['knife-too-far']);
  });

  test('a figure from memory makes no fault', () => {
    // 20 mm above the stock, over the 12 of the revoked regulations, gullets covered
    expect(faultsOf(['gb'], { guard: { height: 70 } })).toEqual([]);
  });

  test('a setting too close to call makes no fault', () => {
    expect(faultsOf(['gb'], knifeAround(8.2), 0.5)).toEqual([]);
    expect(faultsOf(['gb'], knifeAround(8.6), 0.5)).toEqual(['knife-too-far']);
  });

  test('an insert worn on one side only is judged by eye, not by the figure for both', () => {
    expect(faultsOf(['gb'], { insert: { gaps: [3, 12] } })).toEqual([]);
  });

  test('a loose self-acting guard is no fault: it has no clamp to leave open', () => {
    expect(faultsOf(['gb'], { guard: { kind: 'counterweighted', locked: false } })).toEqual([]);
  });
});

describe('a fault file', () => {
  const entry = {
    id: 'a-fault',
    title: 'A fault',
    looks: 'Seen.',
    from: 'Here.',
    why: 'So.',
    do: 'This.',
    remedies: ['report'],
    severity: 'caution',
    critical: false,
    when: { of: 'place.litter', is: true },
  };
  const file = (over: object = {}, top: object = {}) => ({
    schema: 'faults/1',
    part: 'place',
    faults: [{ ...entry, ...over }],
    ...top,
  });
  const refusal = (value: unknown) => {
    const read = readFaults(value);
    return read.ok ? 'accepted' : read.error.message;
  };

  test.each([
    [file(), 'accepted'],
    [
      file({ remedies: ['shrug'] }),
      'faults[0].remedies[0] must be one of: stop-isolate, put-right, take-out-of-service, report.',
    ],
    [file({ remedies: [] }), 'faults[0].remedies must name at least one remedy.'],
    [file({ severity: 'bad' }), 'faults[0].severity must be one of: danger, warning, caution.'],
    [
      file({ when: { of: 'place.liter', is: true } }),
      'faults[0].when.of must be a known measure or bench field.',
    ],
    [file({ when: undefined }), 'faults[0].when must be given'],
    [file({}, { part: 'roof' }), 'part must be one of: blade, arbor'],
    [file({}, { faults: [entry, entry] }), 'faults must not use a-fault twice.'],
    [file({ tag: 'hazard' }), 'faults[0] has no field named tag.'],
    ['text', 'The fault file must be given, as a group of fields.'],
  ])('%#: %s', (value, message) => {
    expect(refusal(value)).toContain(message);
  });

  test('sees every end at which one measure fails, over all results', () => {
    const failing = (failed: LimitEnd, grade: LimitGrade) => ({
      ...judgeOne('eu.knife.gapMax', knifeAround(9)),
      failed,
      grade,
    });
    const holdsAt = (end: string, value: boolean) => {
      const when = { outside: ['knife.gapMax'], end };
      const read = readFaults(file({ when, critical: value }));
      if (!read.ok) throw new Error(read.error.message);
      const bench = makeBench();
      const failed = collectFailedEnds([failing('max', 'should'), failing('min', 'must')]);
      return deriveFaults(bench, measureBench(bench), failed, joinFaults([read.entries])).length;
    };
    expect([holdsAt('min', true), holdsAt('max', true), holdsAt('any', true)]).toEqual([1, 0, 1]);
    expect([holdsAt('min', false), holdsAt('max', false)]).toEqual([1, 1]);
  });

  test('two files cannot share an id', () => {
    const read = readFaults(file());
    if (!read.ok) throw new Error(read.error.message);
    expect(() => joinFaults([read.entries, read.entries])).toThrow(
      'two fault files use the id a-fault',
    );
  });

  test('a critical fault never rests on a failed should', () => {
    const critical = (value: boolean) => {
      const when = { outside: ['place.light'] };
      const read = readFaults(file({ when, critical: value }));
      if (!read.ok) throw new Error(read.error.message);
      const bench = makeBench({ place: { light: 100 } });
      return findFaults(bench, measureBench(bench), [limitSet('eu')], joinFaults([read.entries]));
    };
    expect(critical(true)).toEqual([]);
    expect(critical(false)).toHaveLength(1);
  });
});
