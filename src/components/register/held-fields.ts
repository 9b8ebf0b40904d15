import type { Entry } from './machine-entries.ts';

/** What lies with a machine, as typed: every field is text until it is read. */
export type TypedRow = Readonly<Record<string, string>>;
export type TypedHeld = {
  readonly blades: readonly TypedRow[];
  readonly knives: readonly TypedRow[];
  readonly documents: readonly TypedRow[];
};
export type Held = Pick<Entry, 'blades' | 'knives' | 'documents'>;

export type Field = {
  readonly name: string;
  readonly kind: 'text' | 'number' | 'choice';
  /** text: most characters; number: least and greatest */
  readonly range: readonly [number, number];
};
const field = (name: string, kind: Field['kind'], least: number, most: number): Field => ({
  name,
  kind,
  range: [least, most],
});

/** The ranges of the event, so that a slip is told beside its row. */
export const HELD_FIELDS = {
  blades: [
    field('mark', 'text', 1, 40),
    field('diameter', 'number', 50, 2000),
    field('kerf', 'number', 0.3, 20),
    field('plate', 'number', 0.3, 20),
    field('teeth', 'number', 2, 400),
    field('cut', 'choice', 0, 0),
  ],
  knives: [
    field('mark', 'text', 1, 40),
    field('thickness', 'number', 0.3, 20),
    field('least', 'number', 50, 2000),
    field('most', 'number', 50, 2000),
  ],
  documents: [field('title', 'text', 1, 80), field('where', 'text', 1, 200)],
} as const satisfies Record<keyof TypedHeld, readonly Field[]>;
export const HELD_KINDS = ['blades', 'knives', 'documents'] as const;
export type HeldKind = (typeof HELD_KINDS)[number];
/** Most of each an entry holds, as the event says. */
export const MOST_HELD = { blades: 40, knives: 20, documents: 20 } as const;
export const CUTS = ['rip', 'crosscut', 'both'] as const;

/** What is held, as it would be typed. */
export const typeHeld = ({ blades, knives, documents }: Held): TypedHeld => {
  const typed = (row: Record<string, unknown>): TypedRow =>
    Object.fromEntries(Object.entries(row).map(([name, value]) => [name, String(value)]));
  return {
    blades: blades.map(typed),
    knives: knives.map(({ fits: [least, most], ...knife }) => typed({ ...knife, least, most })),
    documents: documents.map(typed),
  };
};
