import type { Bench } from '../../bench/index.ts';

/** What a reader may change, each with its range; lengths are kept in mm and may be typed in inches. */
export type Field = {
  /** as it is called in a sentence: "Blade height must be a number from ..." */
  readonly name: string;
  readonly unit: string;
  readonly hint?: string;
  /** ends included */
  readonly range: (bench: Bench) => readonly [number, number];
  /** what the bench itself has; null leaves the field empty */
  readonly own: (bench: Bench) => number | null;
  /** may be left empty */
  readonly mayBeEmpty?: true;
};

const from =
  (least: number, most: number): Field['range'] =>
  () => [least, most];

const round = (value: number): number => Number(value.toFixed(2));

/**
 * mm above the table: the flange that clamps the blade takes about a third of its diameter (common
 * practice, no source), and stays under the table.
 */
export function highestBlade({ blade, arbor }: Bench): number {
  const radius = blade.diameter / 2;
  return Math.max(Math.floor((radius * 2) / 3), round(radius - arbor.depth));
}

const noiseAt = (row: number, usual: number | null, part: 'level' | 'hours'): Field['own'] => {
  return ({ exposure }) => {
    if (exposure?.noise === undefined) return usual;
    return exposure.noise[row]?.[part] ?? null;
  };
};

const level = (row: number, usual: number | null): Field => ({
  name: `Noise level ${row + 1}`,
  unit: 'dB(A)',
  range: from(0, 140),
  own: noiseAt(row, usual, 'level'),
  mayBeEmpty: true,
});
const hours = (row: number, usual: number | null): Field => ({
  name: `Hours at level ${row + 1}`,
  unit: 'hours',
  range: from(0.01, 24),
  own: noiseAt(row, usual, 'hours'),
  mayBeEmpty: true,
});

export const FIELDS = {
  height: {
    name: 'Blade height',
    unit: 'mm',
    hint: 'Top of the blade above the table.',
    range: (bench) => [5, highestBlade(bench)],
    own: ({ blade, arbor }) => round(blade.diameter / 2 - arbor.depth),
  },
  thickness: {
    name: 'Stock thickness',
    unit: 'mm',
    range: from(3, 400),
    own: ({ job }) => job.stock.thickness,
  },
  fed: {
    name: 'Feed',
    unit: 'm/min',
    hint: 'How fast the stock is pushed.',
    range: from(0.5, 60),
    own: ({ job }) => (job.fed === 0 ? 5 : job.fed),
  },
  chipForce: {
    name: 'Force the wood asks',
    unit: 'N/mm²',
    hint: 'Assumed: for each square millimetre of chip. From 15 to 100, by species (from memory).',
    range: from(5, 200),
    own: () => 30,
  },
  motor: {
    name: 'Motor rating',
    unit: 'W',
    hint: 'From its plate. May be left empty.',
    range: from(50, 100_000),
    own: ({ arbor }) => arbor.motorPower ?? null,
    mayBeEmpty: true,
  },
  closing: {
    name: 'Kerf would close by',
    unit: 'mm',
    hint: 'How far the wood would spring together behind the blade.',
    range: from(0, 20),
    own: () => 2,
  },
  knifeThickness: {
    name: 'Knife thickness',
    unit: 'mm',
    range: from(0.3, 20),
    own: ({ knife, blade }) => knife?.thickness ?? round((blade.plate + blade.kerf) / 2),
  },
  toe: {
    name: 'Fence toe',
    unit: 'mm',
    hint: 'Over the teeth, front to rear. Minus is closing in, 0 is parallel.',
    range: from(-20, 20),
    own: ({ fence }) => fence.toe,
  },
  length: {
    name: 'Stock length',
    unit: 'mm',
    range: from(50, 6000),
    own: ({ job }) => job.stock.length,
  },
  widthOfCut: {
    name: 'Width of cut',
    unit: 'mm',
    hint: 'From the blade to the fence.',
    range: ({ job }) => [1, job.stock.width],
    own: ({ job }) => Math.min(job.widthOfCut, job.stock.width),
  },
  back: {
    name: 'Operator stands back by',
    unit: 'mm',
    hint: 'From the middle of the blade.',
    range: from(300, 10_000),
    own: ({ people }) => Math.max(300, -people.operator.x),
  },
  left: {
    name: 'Operator stands to the left by',
    unit: 'mm',
    hint: 'From the line of the blade to the middle of the body. Minus is to the right.',
    range: from(-3000, 3000),
    own: ({ people }) => -people.operator.z,
  },
  stickLength: {
    name: 'Push stick length',
    unit: 'mm',
    range: from(50, 2000),
    own: ({ people }) => people.pushStick?.length ?? 450,
  },
  stickLast: {
    name: 'Used for the last',
    unit: 'mm',
    hint: 'How much of the cut is fed with it.',
    range: from(0, 6000),
    own: ({ people }) => people.pushStick?.usedForLast ?? 300,
  },
  runDown: {
    name: 'Run-down time',
    unit: 's',
    hint: 'From pressing stop until the blade stands still.',
    range: from(0.5, 300),
    own: ({ arbor }) => Math.max(0.5, arbor.runDown),
  },
  level1: level(0, 99),
  hours1: hours(0, 2),
  level2: level(1, 88),
  hours2: hours(1, 2),
  level3: level(2, 75),
  hours3: hours(2, 4),
  level4: level(3, null),
  hours4: hours(3, null),
  dust: {
    name: 'Wood dust',
    unit: 'mg/m³',
    hint: 'Breathed in, as a mean over 8 hours. May be left empty.',
    range: from(0, 1000),
    own: ({ exposure }) => (exposure === undefined ? 2.5 : (exposure.dust?.level ?? null)),
    mayBeEmpty: true,
  },
  light: {
    name: 'Light on the table',
    unit: 'lx',
    range: from(0, 100_000),
    own: ({ place }) => place.light,
  },
} as const satisfies Record<string, Field>;

export type FieldId = keyof typeof FIELDS;
export const FIELD_IDS = Object.keys(FIELDS) as readonly FieldId[];
export const fieldOf = (id: FieldId): Field => FIELDS[id];

/** Fields that belong to the reader's day and not to a bench: kept when another bench is chosen. */
export const KEPT_FIELDS = [
  'closing',
  'chipForce',
  'level1',
  'hours1',
  'level2',
  'hours2',
  'level3',
  'hours3',
  'level4',
  'hours4',
  'dust',
  'wood',
] as const;

export const CHOICES = {
  knife: { name: 'Riving knife', options: { on: 'fitted', off: 'taken off' } },
  stick: { name: 'Push stick', options: { on: 'used', off: 'none' } },
  wood: {
    name: 'Wood the dust is of',
    options: { softwood: 'softwood', hardwood: 'hardwood', mixed: 'both mixed' },
  },
} as const;

export type ChoiceId = keyof typeof CHOICES;
export const CHOICE_IDS = Object.keys(CHOICES) as readonly ChoiceId[];

/** What a bench has where the reader has chosen nothing. */
export function ownChoice(bench: Bench, id: ChoiceId): string {
  if (id === 'knife') return bench.knife === null ? 'off' : 'on';
  if (id === 'stick') return bench.people.pushStick === null ? 'off' : 'on';
  if (bench.exposure?.dust !== undefined) return bench.exposure.dust.wood;
  return bench.job.stock.kind === 'hardwood' ? 'hardwood' : 'softwood';
}
