import { describe, expect, it } from 'vitest';
import { readBench } from '../../src/bench/index.ts';
import { type BenchOverrides, makeBench, makeBenchFile } from '../helpers/bench.ts';

/** The path and sentence a bench file is refused with. */
function refusal(value: unknown): { path: string; message: string } {
  const read = readBench(value);
  if (read.ok) throw new Error('the bench was accepted');
  return read.error;
}

const changed = (overrides: BenchOverrides) => refusal(makeBenchFile(overrides));

function without(path: string): unknown {
  const file = makeBenchFile();
  const keys = path.split('.');
  const last = keys.pop() as string;
  const parent = keys.reduce<Record<string, unknown>>(
    (group, key) => group[key] as Record<string, unknown>,
    file,
  );
  delete parent[last];
  return file;
}

describe('reading a bench file', () => {
  it('accepts the sound bench and fills in the clamps and the supply', () => {
    const bench = makeBench();
    expect(bench.knife?.locked).toBe(true);
    expect(bench.controls.isolated).toBe(false);
  });

  it('accepts a bench with knife and guard taken off', () => {
    expect(readBench(makeBenchFile({ knife: null, guard: null })).ok).toBe(true);
  });

  it.each([
    ['blade', 'blade'],
    ['blade.diameter', 'blade.diameter'],
    ['knife', 'knife'],
    ['knife.reach', 'knife.reach'],
    ['job.stock.thickness', 'job.stock.thickness'],
    ['people.operator', 'people.operator'],
    ['schema', 'schema'],
  ])('names %s when it is left out', (path, named) => {
    expect(refusal(without(path)).path).toBe(named);
  });

  it.each<[unknown, string]>([
    [Number.NaN, 'not a number'],
    [Number.POSITIVE_INFINITY, 'infinite'],
    [-1, 'negative'],
    [10_000, 'ten metres'],
    ['400', 'text'],
    [null, 'nothing'],
  ])('refuses a blade diameter of %s (%s) with its range', (diameter) => {
    const file = makeBenchFile();
    (file['blade'] as Record<string, unknown>)['diameter'] = diameter;
    expect(refusal(file)).toEqual({
      path: 'blade.diameter',
      message: 'blade.diameter must be a number from 50 to 2000 mm.',
    });
  });

  it('names an unknown field rather than passing over it', () => {
    const file = makeBenchFile();
    (file['knife'] as Record<string, unknown>)['thicknes'] = 3;
    expect(refusal(file).message).toBe('knife has no field named thicknes.');
  });

  it.each([5, null, [], 'bench', undefined])('refuses %j in one sentence', (value) => {
    expect(refusal(value).message).toMatch(/^The bench file .+\.$/);
  });

  it('refuses a word that is not one of the few', () => {
    expect(refusal({ ...makeBenchFile(), driveGuard: 'lid' }).message).toBe(
      'driveGuard must be one of: none, cover.',
    );
  });
});

describe('impossible geometry', () => {
  it('refuses a blade smaller than its arbor depth', () => {
    const { path, message } = changed({ blade: { diameter: 220 } });
    expect(path).toBe('blade.diameter');
    expect(message).toContain('over 220 mm');
    expect(readBench(makeBenchFile({ blade: { diameter: 224 } })).ok).toBe(true);
  });

  it('refuses a knife whose whole edge lies inside the blade', () => {
    const { path, message } = changed({ knife: { along: -30, edgeRadius: 150, reach: 149 } });
    expect(path).toBe('knife.along');
    expect(message).toContain('inside the blade');
  });

  it('lets a knife that only touches the teeth through: that is a fault to be found', () => {
    const bench = makeBench({ knife: { along: -8 } });
    expect(bench.knife?.along).toBe(-8);
  });

  it('refuses a kerf thinner than the plate, and accepts one as thin', () => {
    expect(changed({ blade: { kerf: 2.7 } }).path).toBe('blade.kerf');
    expect(readBench(makeBenchFile({ blade: { kerf: 2.8 } })).ok).toBe(true);
  });

  it('refuses a gullet as deep as the blade, and a missing tooth that was never there', () => {
    const tiny = { diameter: 60, gulletDepth: 30 };
    expect(changed({ blade: tiny, arbor: { depth: 10 }, knife: null }).path).toBe(
      'blade.gulletDepth',
    );
    expect(changed({ blade: { condition: { missingTeeth: [36] } } }).path).toBe(
      'blade.condition.missingTeeth',
    );
  });

  it('refuses a knife tip below the table, a reach over its radius and an edge off the blade', () => {
    expect(changed({ knife: { reach: 110 } }).message).toContain('over 110 mm');
    expect(changed({ knife: { reach: 205 } }).path).toBe('knife.reach');
    expect(changed({ knife: { along: 300 } }).path).toBe('knife.edgeRadius');
  });

  it('refuses a guard whose front is behind its rear', () => {
    expect(changed({ guard: { front: 100, rear: 50 } }).path).toBe('guard.front');
  });
});
