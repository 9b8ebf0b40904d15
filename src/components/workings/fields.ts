import type { Bench } from '../../bench/index.ts';
import type { Speaker } from '../../words/say.ts';

/**
 * What a reader may change, each with its range; lengths are kept in mm and may be typed in inches.
 * `workings.field` and `workings.hint` of the catalogue have what each is called.
 */
export type Field = {
  readonly unit: string;
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
  unit: 'dB(A)',
  range: from(0, 140),
  own: noiseAt(row, usual, 'level'),
  mayBeEmpty: true,
});
const hours = (row: number, usual: number | null): Field => ({
  unit: 'hours',
  range: from(0.01, 24),
  own: noiseAt(row, usual, 'hours'),
  mayBeEmpty: true,
});

export const FIELDS = {
  height: {
    unit: 'mm',
    range: (bench) => [5, highestBlade(bench)],
    own: ({ blade, arbor }) => round(blade.diameter / 2 - arbor.depth),
  },
  thickness: {
    unit: 'mm',
    range: from(3, 400),
    own: ({ job }) => job.stock.thickness,
  },
  fed: {
    unit: 'm/min',
    range: from(0.5, 60),
    own: ({ job }) => (job.fed === 0 ? 5 : job.fed),
  },
  chipForce: {
    unit: 'N/mm²',
    range: from(5, 200),
    own: () => 30,
  },
  motor: {
    unit: 'W',
    range: from(50, 100_000),
    own: ({ arbor }) => arbor.motorPower ?? null,
    mayBeEmpty: true,
  },
  closing: {
    unit: 'mm',
    range: from(0, 20),
    own: () => 2,
  },
  knifeThickness: {
    unit: 'mm',
    range: from(0.3, 20),
    own: ({ knife, blade }) => knife?.thickness ?? round((blade.plate + blade.kerf) / 2),
  },
  toe: {
    unit: 'mm',
    range: from(-20, 20),
    own: ({ fence }) => fence.toe,
  },
  length: {
    unit: 'mm',
    range: from(50, 6000),
    own: ({ job }) => job.stock.length,
  },
  widthOfCut: {
    unit: 'mm',
    range: ({ job }) => [1, job.stock.width],
    own: ({ job }) => Math.min(job.widthOfCut, job.stock.width),
  },
  back: {
    unit: 'mm',
    range: from(300, 10_000),
    own: ({ people }) => Math.max(300, -people.operator.x),
  },
  left: {
    unit: 'mm',
    range: from(-3000, 3000),
    own: ({ people }) => -people.operator.z,
  },
  stickLength: {
    unit: 'mm',
    range: from(50, 2000),
    own: ({ people }) => people.pushStick?.length ?? 450,
  },
  stickLast: {
    unit: 'mm',
    range: from(0, 6000),
    own: ({ people }) => people.pushStick?.usedForLast ?? 300,
  },
  runDown: {
    unit: 's',
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
    unit: 'mg/m³',
    range: from(0, 1000),
    own: ({ exposure }) => (exposure === undefined ? 2.5 : (exposure.dust?.level ?? null)),
    mayBeEmpty: true,
  },
  light: {
    unit: 'lx',
    range: from(0, 100_000),
    own: ({ place }) => place.light,
  },
} as const satisfies Record<string, Field>;

export type FieldId = keyof typeof FIELDS;
export const FIELD_IDS = Object.keys(FIELDS) as readonly FieldId[];
/** A unit as it stands beside a figure: hours have a word in each language. */
export const unitOf = (id: FieldId, say: Speaker): string =>
  say.maybe(`workings.unit.${FIELDS[id].unit}`, FIELDS[id].unit);
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

/** A few words to choose from; `workings.choice` of the catalogue has what each is called. */
export const CHOICES = {
  knife: ['on', 'off'],
  stick: ['on', 'off'],
  wood: ['softwood', 'hardwood', 'mixed'],
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
