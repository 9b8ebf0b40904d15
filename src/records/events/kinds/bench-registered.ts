import { z } from 'zod';
import { BenchSchema } from '../../../bench/index.ts';
import {
  ContentIdSchema,
  count,
  fields,
  OpaqueIdSchema,
  oneOf,
  quantity,
  text,
  WorkSchema,
} from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

const list = <Item extends z.ZodType>(item: Item, what: string, most: number) =>
  z
    .array(item, { error: `must list ${what}, which may be none` })
    .max(most, { error: `must list at most ${most}` });

/** A blade kept for this bench, mm and teeth. */
const HeldBladeSchema = fields({
  /** mark on the blade */
  mark: text(40),
  diameter: quantity(50, 2000, 'mm'),
  kerf: quantity(0.3, 20, 'mm'),
  plate: quantity(0.3, 20, 'mm'),
  teeth: count(2, 400),
  cut: oneOf('rip', 'crosscut', 'both'),
});

/** A riving knife kept for this bench. */
const HeldKnifeSchema = fields({
  mark: text(40),
  thickness: quantity(0.3, 20, 'mm'),
  /** least and greatest blade it belongs to, mm */
  fits: z
    .tuple([quantity(50, 2000, 'mm'), quantity(50, 2000, 'mm')], {
      error: 'must list the least and the greatest blade in mm',
    })
    .refine(([least, most]) => least <= most, { error: 'must list the least blade first' }),
});

/** A machine of the workshop entered the register, or its entry is replaced by this one. */
export const benchRegistered = defineKind({
  kind: 'bench.registered',
  versions: [
    { name: 'as first written' },
    {
      name: 'with what changed, what is held and documents',
      // before this, a new entry said nothing of why it was made
      migrate: (older) => ({
        ...(older as object),
        change: 'entry',
        blades: [],
        knives: [],
        documents: [],
      }),
    },
  ],
  body: fields({
    /** id of the bench; `about` is the same */
    bench: OpaqueIdSchema,
    /** mark on the machine, such as AL-01 */
    asset: text(40),
    title: text(80),
    /** operations this bench may be used for */
    work: z
      .array(WorkSchema, { error: 'must list the work this bench is used for' })
      .min(1, { error: 'must list at least one kind of work' }),
    /** id of the limit set it is judged by */
    limits: ContentIdSchema,
    /** the bench as it stands: a whole bench/1 file */
    file: BenchSchema,
    /** why this entry was made: the machine, its guard, or the entry alone is other than before */
    change: oneOf('entry', 'guard', 'machine'),
    blades: list(HeldBladeSchema, 'the blades held', 40),
    knives: list(HeldKnifeSchema, 'the riving knives held', 20),
    /** what lies with the machine, and where: the maker's manual, the risk assessment */
    documents: list(fields({ title: text(80), where: text(200) }), 'documents', 20),
  }),
  agrees: ({ about, body }) =>
    about === body.bench ? null : { path: ['about'], message: 'must be the bench registered' },
});
