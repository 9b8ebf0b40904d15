import { describe, expect, it } from 'vitest';
import {
  ActionSchema,
  agreesWith,
  INSTRUMENT_IDS,
  INSTRUMENTS,
  LEAVES,
  leavesFor,
  MEASURING_POINT_IDS,
  MEASURING_POINTS,
  type MeasureId,
  type MeasuringPointId,
  readInstrument,
  SETTING_IDS,
  SETTINGS,
  takingsOf,
  transition,
} from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';

/** What can be laid where, and what it then shows. Instruments and places: common practice, no source. */

// R 200, axis 110 down; the edge's centre 2 behind the axis, radius 204
const HALF = Math.sqrt(200 ** 2 - 110 ** 2);
const away = (height: number) => Math.hypot(2 + Math.sqrt(204 ** 2 - height ** 2), height) - 200;

const POINTS: Readonly<
  Record<
    MeasuringPointId,
    readonly [part: string, with_: readonly string[], measure: string | null, mm: number]
  >
> = {
  'knife-gap-at-table': ['knife', ['feeler', 'rule'], 'knife.gapAtTable', away(110)],
  'knife-gap-at-tip': ['knife', ['feeler', 'rule'], null, away(198.5)],
  'knife-gap-greatest': ['knife', ['feeler', 'rule'], 'knife.gapMax', away(110)],
  'knife-tip-drop': ['knife', ['rule', 'square'], 'knife.tipDrop', 1.5],
  'knife-thickness': ['knife', ['calliper'], null, 3.2],
  // left faces: plate at -1.4, knife 3.2 in line at -1.6, so it stands 0.2 proud
  'knife-in-line': ['knife', ['straightedge', 'dial'], null, -0.2],
  'knife-play': ['knife', ['dial'], 'knife.play', 0],
  'blade-plate': ['blade', ['calliper'], null, 2.8],
  'blade-kerf': ['blade', ['calliper'], null, 4.2],
  'blade-height': ['blade', ['rule', 'square'], 'blade.projection', 90],
  'guard-to-stock': ['guard', ['feeler', 'rule'], 'guard.clearance', 5],
  'guard-front': ['guard', ['rule'], 'guard.leadFront', 235 - HALF],
  'guard-rear': ['guard', ['rule'], 'guard.leadRear', 235 - HALF],
  'guard-play': ['guard', ['dial'], 'guard.play', 0],
  'fence-end': ['fence', ['rule'], 'fence.overrun', HALF - 155],
  'fence-face': ['fence', ['rule', 'calliper'], null, 150],
  'fence-toe': ['fence', ['calliper', 'dial'], 'fence.toe', 0],
  'fence-play': ['fence', ['dial'], null, 0],
  'insert-left': ['insert', ['feeler', 'rule'], null, 2.5],
  'insert-right': ['insert', ['feeler', 'rule'], null, 3.5],
  'insert-step': ['insert', ['straightedge', 'dial'], 'insert.step', 0],
  'stock-thickness': ['stock', ['rule', 'calliper'], null, 50],
  'stick-length': ['push-stick', ['rule'], 'stick.length', 450],
};

describe('the places where an instrument can be laid', () => {
  it('are these and no others', () => {
    expect([...MEASURING_POINT_IDS]).toEqual(Object.keys(POINTS));
  });

  it.each(MEASURING_POINT_IDS.map((id) => [id]))('%s', (id) => {
    const [part, instruments, measure, length] = POINTS[id];
    const point = MEASURING_POINTS[id];
    expect(point.part).toBe(part);
    expect([...point.instruments]).toEqual(instruments);
    expect(point.measure).toBe(measure);
    expect(point.take(makeBench({ insert: { gaps: [2.5, 3.5] } }))).toBeCloseTo(length, 9);
  });

  it('show nothing where the part is off', () => {
    const bare = makeBench({ knife: null, guard: null, people: { pushStick: null } });
    const silent = MEASURING_POINT_IDS.filter((id) => MEASURING_POINTS[id].take(bare) === null);
    expect(silent).toEqual([
      'knife-gap-at-table',
      'knife-gap-at-tip',
      'knife-gap-greatest',
      'knife-tip-drop',
      'knife-thickness',
      'knife-in-line',
      'knife-play',
      'guard-to-stock',
      'guard-front',
      'guard-rear',
      'guard-play',
      'stick-length',
    ]);
  });
});

describe('the instruments', () => {
  it.each([
    ['rule', 0.5, 0.5, 1000, 'nearest'],
    ['feeler', 0.05, 0.05, 25, 'down'],
    ['calliper', 0.05, 0.05, 150, 'nearest'],
    ['square', 0.5, 0.5, 600, 'nearest'],
    ['straightedge', 0.05, 0.05, 20, 'toward-zero'],
    ['dial', 0.01, 0.02, 10, 'nearest'],
  ] as const)(
    '%s reads to %f, is known to %f and takes %d mm',
    (id, resolution, uncertainty, longest, rounding) => {
      expect(INSTRUMENTS[id]).toMatchObject({ id, resolution, uncertainty, longest, rounding });
      expect(readInstrument(INSTRUMENTS[id], longest)).toBeCloseTo(longest, 9);
      expect(readInstrument(INSTRUMENTS[id], longest + resolution)).toBeNull();
      expect(readInstrument(INSTRUMENTS[id], resolution)).toBeCloseTo(resolution, 9);
    },
  );

  it('at the bench are six', () => {
    expect([...INSTRUMENT_IDS]).toEqual([
      'rule',
      'feeler',
      'calliper',
      'square',
      'straightedge',
      'dial',
    ]);
  });

  it('show nothing of a length too long past the other edge, and minus a length that is not', () => {
    expect(readInstrument(INSTRUMENTS.rule, -1001)).toBeNull();
    expect(readInstrument(INSTRUMENTS.rule, -1000)).toBe(-1000);
    expect(readInstrument(INSTRUMENTS.rule, -7.3)).toBe(-7.5);
  });

  it('of leaves take whole leaves only: never more than the gap, and nothing under the thinnest', () => {
    expect(readInstrument(INSTRUMENTS.feeler, 0.05)).toBe(0.05);
    expect(readInstrument(INSTRUMENTS.feeler, 0.049)).toBeNull();
    expect(readInstrument(INSTRUMENTS.feeler, 5.099)).toBe(5.05);
    // 0.15 / 0.05 falls just under 3 in binary
    expect(readInstrument(INSTRUMENTS.feeler, 0.15)).toBe(0.15);
  });

  it('never read minus nothing', () => {
    expect(Object.is(readInstrument(INSTRUMENTS.rule, -0.1), 0)).toBe(true);
    expect(Object.is(readInstrument(INSTRUMENTS.rule, 0.1), 0)).toBe(true);
  });
});

describe('a straightedge with leaves under it', () => {
  it('takes no thicker stack than goes in, on whichever side stands higher', () => {
    expect(readInstrument(INSTRUMENTS.straightedge, 0.79)).toBe(0.75);
    expect(readInstrument(INSTRUMENTS.straightedge, -0.79)).toBe(-0.75);
    expect(readInstrument(INSTRUMENTS.straightedge, 0.049)).toBe(0);
    expect(readInstrument(INSTRUMENTS.straightedge, -0.15)).toBe(-0.15);
  });
});

describe('a stack of leaves', () => {
  it('is exactly as thick as it reads, each leaf used once', () => {
    for (let steps = 1; steps <= 25 * 20; steps++) {
      const stack = leavesFor(steps / 20);
      const thick = stack.reduce((sum, leaf) => sum + leaf, 0);
      expect(thick).toBeCloseTo(steps / 20, 9);
      const left = [...LEAVES] as number[];
      for (const leaf of stack) {
        const at = left.indexOf(leaf);
        expect(at).toBeGreaterThanOrEqual(0);
        left.splice(at, 1);
      }
    }
  });
});

describe('what somebody reads off a scale', () => {
  const { calliper } = INSTRUMENTS;

  it.each([
    [7.95, 7.95, true],
    [7.95, 8, true],
    [7.95, 7.9, true],
    [7.95, 8.05, false],
    // a line counted on the wrong side of the zero is a whole millimetre out
    [7.95, 8.95, false],
    [-2, 2, false],
    [null, null, true],
    [7.95, null, false],
    [null, 7.95, false],
  ] as const)('shown %s, read %s: agrees %s', (shown, read, agrees) => {
    expect(agreesWith(shown, read, calliper)).toBe(agrees);
  });

  it('is part of the measuring, and what it was worth comes of it', () => {
    const bench = makeBench({ controls: { isolated: true } });
    const laid = { do: 'measure', with: 'calliper', at: 'knife-thickness' } as const;
    expect(transition(bench, laid).effects).toEqual([
      { kind: 'reading', at: 'knife-thickness', with: 'calliper', value: 3.2, uncertainty: 0.05 },
    ]);
    expect(transition(bench, { ...laid, read: 3.25 }).effects[0]).toMatchObject({
      read: { mm: 3.25, right: true },
    });
    expect(transition(bench, { ...laid, read: 2.3 }).effects[0]).toMatchObject({
      read: { mm: 2.3, right: false },
    });
    expect(transition(bench, { ...laid, read: null }).effects[0]).toMatchObject({
      read: { mm: null, right: false },
    });
  });

  it.each([1000.5, '7', Number.NaN])('is refused as %s', (read) => {
    const sent = { do: 'measure', with: 'rule', at: 'blade-height', read };
    expect(ActionSchema.safeParse(sent).success).toBe(false);
    expect(ActionSchema.safeParse({ ...sent, read: null }).success).toBe(true);
  });
});

describe('how a measure is taken', () => {
  const TWO = Math.SQRT2;
  const WAYS: readonly (readonly [MeasureId, number, readonly (readonly [string, number])[]])[] = [
    [
      'blade.projection',
      90,
      [
        ['rule', 0.5],
        ['square', 0.5],
        ['calliper', 0.05],
      ],
    ],
    [
      'blade.crack',
      9,
      [
        ['rule', 0.5],
        ['calliper', 0.05],
      ],
    ],
    [
      'knife.gapMax',
      5,
      [
        ['rule', 0.5],
        ['feeler', 0.05],
      ],
    ],
    [
      'knife.gapMin',
      5,
      [
        ['rule', 0.5],
        ['feeler', 0.05],
      ],
    ],
    [
      'knife.gapAtTable',
      5,
      [
        ['rule', 0.5],
        ['feeler', 0.05],
      ],
    ],
    [
      'knife.tipHeight',
      88,
      [
        ['rule', 0.5],
        ['square', 0.5],
        ['calliper', 0.05],
      ],
    ],
    [
      'knife.tipDrop',
      2,
      [
        ['rule', 0.5],
        ['square', 0.5],
        ['calliper', 0.05],
      ],
    ],
    ['knife.overPlate', 0.4, [['calliper', 0.05 * TWO]]],
    ['knife.underKerf', 1, [['calliper', 0.05 * TWO]]],
    [
      'knife.play',
      1,
      [
        ['rule', 0.5],
        ['dial', 0.02],
      ],
    ],
    [
      'guard.clearance',
      5,
      [
        ['rule', 0.5],
        ['feeler', 0.05],
      ],
    ],
    [
      'guard.leadFront',
      60,
      [
        ['rule', 0.5],
        ['square', 0.5],
      ],
    ],
    [
      'guard.leadRear',
      60,
      [
        ['rule', 0.5],
        ['square', 0.5],
      ],
    ],
    [
      'guard.play',
      1,
      [
        ['rule', 0.5],
        ['dial', 0.02],
      ],
    ],
    ['fence.overrun', 12, [['rule', 0.5]]],
    ['fence.pastGullets', -5, [['rule', 0.5]]],
    [
      'fence.toe',
      0.2,
      [
        ['calliper', 0.05 * TWO],
        ['dial', 0.02 * TWO],
      ],
    ],
    [
      'insert.gapMax',
      3,
      [
        ['rule', 0.5],
        ['feeler', 0.05],
      ],
    ],
    [
      'insert.step',
      0.2,
      [
        ['straightedge', 0.05],
        ['dial', 0.02],
      ],
    ],
    ['stick.length', 450, [['rule', 0.5]]],
    ['knife.sideClear', 0.5, []],
    ['blade.sizeRatio', 0.9, []],
  ];
  it.each(WAYS)('%s of %d mm', (measure, length, ways) => {
    const found = takingsOf(measure, length).map(({ instrument }) => instrument);
    expect(found).toEqual(ways.map(([instrument]) => instrument));
    takingsOf(measure, length).forEach(({ uncertainty }, i) => {
      expect(uncertainty).toBeCloseTo(ways[i]?.[1] ?? 0, 12);
    });
  });

  it('leaves out what is too short for it, on either side of nothing', () => {
    expect(takingsOf('insert.step', 20.1)).toEqual([]);
    expect(takingsOf('insert.step', -10).map(({ instrument }) => instrument)).toEqual([
      'straightedge',
      'dial',
    ]);
    expect(takingsOf('insert.step', -10.1).map(({ instrument }) => instrument)).toEqual([
      'straightedge',
    ]);
  });
});

describe('what a hand can set', () => {
  it.each([
    ['knife.along', 'knife', 0.5, -60, 120],
    ['knife.up', 'knife', 0.5, -120, 120],
    ['guard.height', 'guard', 1, 0, 400],
    ['guard.front', 'guard', 5, -700, 0],
    ['fence.end', 'fence', 5, -600, 800],
    ['fence.face', 'fence', 1, 0, 600],
    ['arbor.depth', 'blade', 1, 10, 400],
  ] as const)(
    '%s is on the %s, moves by %f mm, from %d to %d',
    (setting, part, step, least, most) => {
      expect(SETTINGS[setting]).toMatchObject({ part, step, least, most });
      expect(SETTING_IDS).toHaveLength(7);
    },
  );
});
