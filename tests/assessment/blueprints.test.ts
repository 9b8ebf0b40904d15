import { describe, expect, it } from 'vitest';
import {
  examRules,
  readBlueprint,
  readEstimate,
  readSituation,
  WorkSchema,
} from '../../src/assessment/index.ts';
import { describeProblem } from '../../src/bench/index.ts';
import { loadUnits } from '../../src/store/content-files.ts';
import { BLUEPRINT_IDS, EXAM_CONTENT } from '../helpers/exam.ts';
import { RIGHT_STEPS } from '../helpers/right-steps.ts';
import { CATALOGUE } from '../helpers/rules.ts';

const sound = EXAM_CONTENT.blueprints.get('rip-test')!;
const saidOf = (value: unknown): string => {
  const read = readBlueprint(value);
  return read.ok ? 'fine' : read.error.message;
};
const withTask = (i: number, changes: object) => ({
  ...sound,
  tasks: sound.tasks.map((task, at) => (at === i ? { ...task, ...changes } : task)),
});

describe('a blueprint', () => {
  it.each(BLUEPRINT_IDS)('%s names only what is there', (id) => {
    const blueprint = EXAM_CONTENT.blueprints.get(id)!;
    expect(() => examRules(blueprint, EXAM_CONTENT)).not.toThrow();
    expect(blueprint.units.filter((unit) => !loadUnits().has(unit))).toEqual([]);
  });

  it('that names what is not there is refused with its name', () => {
    expect(() => examRules({ ...sound, limits: ['gb', 'moon'] }, EXAM_CONTENT)).toThrow(
      'The blueprint rip-test names the limit set moon, which is not there.',
    );
  });

  it.each([
    [
      'two parts of a kind',
      { ...sound, tasks: [...sound.tasks, sound.tasks[2]] },
      'tasks must not hold two of the kind plan.',
    ],
    [
      'margins that meet',
      { ...sound, margins: { near: [1, 8], far: [8, 16] } },
      'margins.far must begin beyond the end of near.',
    ],
    [
      'a margin upside down',
      { ...sound, margins: { near: [3, 1], far: [8, 16] } },
      'margins.near must list the smaller number first.',
    ],
    [
      'more situations than there are',
      withTask(3, { count: 5 }),
      'tasks[3].count must be at most 4, as many as it draws from.',
    ],
    [
      'no fault at all',
      withTask(0, { faults: { danger: 0, warning: 0, caution: 0 } }),
      'tasks[0].faults must ask for at least one fault.',
    ],
    [
      'a mark without its method',
      { ...sound, pass: { mark: 70 } },
      'pass.method must be one of: modified-angoff, provisional.',
    ],
    [
      'a mark over 100',
      { ...sound, pass: { mark: 170, method: 'provisional', basis: 'x' } },
      'pass.mark must be a whole number from 1 to 100.',
    ],
    ['a field unknown', { ...sound, answers: [] }, 'The blueprint has no field named answers.'],
  ])('with %s is refused in one sentence', (_what, value, said) => {
    expect(saidOf(value)).toBe(said);
  });
});

describe('content of a test', () => {
  it('estimates only faults of the catalogue, and is refused with a chance of nothing', () => {
    const { estimate } = EXAM_CONTENT;
    expect(Object.keys(estimate.find.faults).filter((id) => !CATALOGUE.byId.has(id))).toEqual([]);
    const read = readEstimate({ ...estimate, set: 0 });
    expect(read.ok || read.error.message).toBe('set must be a whole number from 5 to 95.');
  });

  it('has for every situation the steps written out a second time, in the same order', () => {
    for (const { title, steps } of EXAM_CONTENT.situations.values()) {
      const starts = RIGHT_STEPS[title] ?? [];
      expect(starts).toHaveLength(steps.length);
      const places = [...steps].sort((a, b) => a.place - b.place);
      starts.forEach((start, i) => {
        expect(places[i]!.text.startsWith(start)).toBe(true);
      });
    }
  });

  it('refuses a situation too long to be put in order', () => {
    const situation = EXAM_CONTENT.situations.get('binding')!;
    const steps = Array.from({ length: 10 }, () => situation.steps[0]);
    const read = readSituation({ ...situation, steps });
    expect(read.ok || read.error.message).toBe('slips must make at most 12 with the steps.');
  });
});

describe('work as it is sent in', () => {
  const said = (value: unknown) => {
    const read = WorkSchema.safeParse(value);
    return read.success ? 'fine' : describeProblem(read.error, 'The work').message;
  };

  it('is refused in one sentence where it is not what was asked', () => {
    expect(said({ plan: { kind: 'plan', stance: 'a', stick: null, end: 'b' } })).toBe('fine');
    expect(said({ plan: { kind: 'plan', stance: 'a', stick: 1, end: 'b' } })).toBe(
      'plan.stick must be the id of a choice.',
    );
    expect(said({ find: { kind: 'find', actions: [], findings: [{ part: 'blade' }] } })).toBe(
      'find.findings[0].fault must be the id of a fault.',
    );
    expect(said({ set: { kind: 'set', moves: [{ do: 'fit', what: 'fence', id: 'x' }] } })).toBe(
      'set.moves[0].what must be one of: blade, knife, insert.',
    );
    expect(said({ x: { kind: 'sing' } })).toBe(
      'x.kind must be one of the kinds: find, set, plan, react, limit.',
    );
  });
});
