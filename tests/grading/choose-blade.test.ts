import { describe, expect, test } from 'vitest';
import { measureBench, readBench } from '../../src/bench/index.ts';
import { chooseBlade, readRack } from '../../src/grading/index.ts';
import { loadRacks } from '../../src/store/content-files.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { limitSet } from '../helpers/rules.ts';

const rack = loadRacks().get('alder-lane')!;

function choose(overrides: BenchOverrides = {}, sets: readonly string[] = ['gb'], from = rack) {
  return chooseBlade({ bench: makeBench(overrides), rack: from, sets: sets.map(limitSet) });
}
const find = (choices: ReturnType<typeof choose>, id: string) =>
  choices.find(({ blade }) => blade.id === id)!;
const against = (choices: ReturnType<typeof choose>, id: string) =>
  find(choices, id)
    .reasons.filter(({ kind }) => kind === 'against')
    .map(({ says }) => says)
    .join('; ');

describe('choosing a blade for a job', () => {
  test('ranks every blade of the rack, those that fit first and by score', () => {
    const choices = choose();
    expect(choices).toHaveLength(rack.blades.length);
    const scores = choices.map(({ score }) => score);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
    for (const { fits, score } of choices) expect(score > 0).toBe(fits);
  });

  test('is the same every time, whatever the order of the rack', () => {
    const turned = {
      ...rack,
      blades: [...rack.blades].reverse(),
      knives: [...rack.knives].reverse(),
    };
    const ids = (choices: ReturnType<typeof choose>) =>
      choices.map(({ blade, knife, score }) => [blade.id, knife?.id, score]);
    expect(ids(choose())).toEqual(ids(choose({}, ['gb'], turned)));
  });

  test('puts a ripping blade before a crosscut blade for ripping, and after it for crosscutting', () => {
    const place = (cut: 'rip' | 'crosscut', id: string) =>
      choose({ job: { cut, fed: cut === 'rip' ? 8 : 4 } }).findIndex(
        ({ blade }) => blade.id === id,
      );
    expect(place('rip', 'rip-400-24')).toBeLessThan(place('rip', 'cross-400-60'));
    const hooks = choose({ job: { cut: 'crosscut' } }).map(({ blade, reasons }) => [
      blade.id,
      reasons.some(({ says }) => says.includes('across the grain')),
    ]);
    expect(hooks).toContainEqual(['cross-400-60', true]);
  });

  test('leaves a blade marked for less than the spindle turns at, or larger than the bench takes', () => {
    const choices = choose();
    expect(against(choices, 'plate-457-12g')).toContain(
      'larger than this bench is built for (450 mm)',
    );
    expect(against(choices, 'plate-457-12g')).toContain(
      'marked for 2200 rpm, and this spindle turns at 3000',
    );
    // marked just as fast as the spindle turns: it fits
    expect(against(choose({ arbor: { speed: 3100 } }), 'plate-406-13g')).toBe('');
    expect(against(choose({ arbor: { speed: 3101 } }), 'plate-406-13g')).toContain(
      'marked for 3100',
    );
  });

  test('leaves a blade a limit in force refuses, and says whose limit it is', () => {
    const small = against(choose(), 'small-250-24');
    expect(small).toMatch(/0\.556 where at least 0\.6 is asked \(HSE, circular saw bench/);
    expect(against(choose({}, ['hk']), 'small-250-24')).toBe('');
  });

  test('leaves a blade that cannot be raised through the stock', () => {
    expect(against(choose({ job: { stock: { thickness: 110 } } }), 'small-250-24')).toContain(
      'too small to clear 110 mm stock',
    );
  });

  test('wants no more than the motor gives, and says that the force is assumed', () => {
    const strong = find(choose({ arbor: { motorPower: 7500 } }), 'rip-400-24');
    // 30 N/mm2 x 4.4 mm x 50 mm x 8 m/min = 880 W
    expect(strong.cut?.power).toBeCloseTo(880, 9);
    expect(strong.cut?.powerShare).toBeCloseTo(880 / 7500, 9);
    expect(strong.fits).toBe(true);
    const weak = choose({ arbor: { motorPower: 879 } });
    expect(against(weak, 'rip-400-24')).toBe(
      'wants about 100 % of the motor at this feed (assumed cutting force)',
    );
    expect(find(choose({ arbor: { motorPower: 880 } }), 'rip-400-24').fits).toBe(true);
    expect(find(choose(), 'rip-400-24').cut?.powerShare).toBeNull();
  });
});

describe('the knife that goes with a blade', () => {
  test('is thicker than the plate and thinner than the kerf', () => {
    for (const { blade, knife } of choose()) {
      if (knife === null) continue;
      expect(knife.thickness, blade.id).toBeGreaterThan(blade.plate);
      expect(knife.thickness, blade.id).toBeLessThan(blade.kerf);
    }
  });

  test.each([
    ['rip-400-36', 'knife-32'],
    ['rip-350-28', 'knife-28'],
    ['rip-450-32', 'knife-35'],
    ['panel-303-96', 'knife-25'],
  ])('of %s is %s, the one made for its size', (blade, knife) => {
    expect(find(choose(), blade).knife?.id).toBe(knife);
  });

  test('stands on a bench the schema accepts, clear of the teeth, and meets the limits in force', () => {
    for (const { blade, knife, bench, fits } of choose({}, ['gb', 'eu'])) {
      if (!fits || bench === null || knife === null) continue;
      expect(readBench(bench).ok, blade.id).toBe(true);
      const measures = measureBench(bench);
      expect(measures['knife.gapMin'], blade.id).toBeGreaterThan(0);
      expect(measures['knife.gapAtTable'], blade.id).toBeCloseTo(5, 3);
      expect(measures['blade.aboveStock'], blade.id).toBeCloseTo(blade.gulletDepth, 6);
      expect(bench.blade.condition.cracks).toEqual([]);
    }
  });

  test('follows the rule in force: a plate + 0.2 under eu, 1.1 plates under jp', () => {
    const knives = [
      { id: 'a', title: 'Knife a', thickness: 2.9, edgeRadius: 204, reach: 198.5 },
      { id: 'b', title: 'Knife b', thickness: 3.05, edgeRadius: 204, reach: 198.5 },
    ];
    const [blade] = rack.blades;
    const own = { ...rack, blades: [blade!], knives };
    const knifeUnder = (set: string) => choose({}, [set], own)[0]?.knife?.id ?? null;
    expect([knifeUnder('gb'), knifeUnder('eu'), knifeUnder('jp')]).toEqual(['b', 'b', null]);
    const thin = { ...own, knives: knives.slice(0, 1) };
    expect(choose({}, ['gb'], thin)[0]?.knife?.id).toBe('a');
    expect(choose({}, ['eu'], thin)[0]).toMatchObject({ knife: null, fits: false, score: 0 });
  });

  test('is not needed for a groove, and its lack is only noted', () => {
    const bare = { ...rack, knives: [] };
    const groove = choose({ job: { cut: 'groove', stock: { thickness: 120 } } }, ['gb'], bare);
    expect(find(groove, 'rip-400-36')).toMatchObject({ knife: null, fits: true });
    expect(choose({}, ['gb'], bare).every(({ fits }) => !fits)).toBe(true);
  });
});

describe('a rack file', () => {
  const [blade] = rack.blades;
  const [knife] = rack.knives;
  const file = (over: object = {}, bladeOver: object = {}) => ({
    schema: 'rack/1',
    id: 'own',
    title: 'Own rack',
    blades: [{ ...blade, ...bladeOver }],
    knives: [knife],
    ...over,
  });
  test.each<[object, string]>([
    [file(), 'accepted'],
    [file({ schema: 'rack/2' }), 'schema must be "rack/1".'],
    [file({ blades: [] }), 'blades must hold at least one blade.'],
    [file({}, { diameter: 20 }), 'blades[0].diameter must be a number from 50 to 2000 mm.'],
    [file({}, { kerf: 2 }), 'blades[0].kerf must be at least the plate (2.8 mm).'],
    [
      file({}, { gulletDepth: 90, diameter: 180 }),
      'blades[0].gulletDepth must be less than half the diameter.',
    ],
    [file({}, { kerf: Number.NaN }), 'blades[0].kerf must be a number from 0.5 to 20 mm.'],
    [
      file({}, { plate: Number.POSITIVE_INFINITY }),
      'blades[0].plate must be a number from 0.5 to 12 mm.',
    ],
    [file({}, { diameter: 10_000 }), 'blades[0].diameter must be a number from 50 to 2000 mm.'],
    [file({}, { teeth: -3 }), 'blades[0].teeth must be a whole number from 2 to 200.'],
    [file({ knives: [{ ...knife, thickness: -1 }] }), 'knives[0].thickness must be a number'],
    [file({}, { colour: 'red' }), 'blades[0] has no field named colour.'],
    [file({}, { gauge: 9 }), 'blades[0].gauge must be one of: 8, 10, 11'],
    // Birmingham gauge 12 is .109 in (three published tables agree)
    [file({}, { gauge: 12 }), 'accepted'],
    [file({}, { gauge: 13 }), 'blades[0].plate must be about 2.41 mm, as gauge 13 is.'],
    [file({ knives: [{ ...knife, id: blade?.id }] }), `blades must not use ${blade?.id} twice.`],
    [file({ shelf: 1 }), 'has no field named shelf.'],
    [file({ id: 'Own Rack' }), 'id must be lower-case words'],
  ])('%#', (value, message) => {
    const read = readRack(value);
    expect(read.ok ? 'accepted' : read.error.message).toContain(message);
  });

  test.each([null, 7, 'text', []])('%j is refused', (value) => {
    const read = readRack(value);
    expect(read.ok ? '' : read.error.message).toMatch(/^The rack .+\.$/);
  });
});
