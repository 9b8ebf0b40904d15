import { z } from 'zod';
import { BenchSchema, describeProblem, MEASURE_IDS, type Problem } from '../../bench/index.ts';
import { FAULT_PARTS } from '../../limits/index.ts';
import { choice, group, slug, some, text, whole } from './fields.ts';
import { PassMarkSchema } from './pass-mark.ts';

/** Share of the whole score that a part is worth, against the weights of the others. */
const weight = whole(1, 100);
const many = whole(0, 8);

/** Look over a bench: name each fault, its part, and what to do. */
const FindSlot = group({
  kind: z.literal('find'),
  weight,
  /** how many faults of each severity */
  faults: group({ danger: many, warning: many, caution: many }),
  /** how many things look odd and are in order */
  lookAlikes: many,
  /** per cent of the faults that can be near a limit or far from it which are near */
  near: whole(0, 100),
  /** parts the faults may be on; all of them when left out */
  parts: some(choice(FAULT_PARTS), 'parts').optional(),
});

/** Set a bench for a job: choose from the rack, then set and lock. */
const SetSlot = group({
  kind: z.literal('set'),
  weight,
  /** measures to be brought within the limits; those with no meaning at this bench fall away */
  settings: some(z.enum(MEASURE_IDS, { error: 'must be a known measure' }), 'measures'),
});

/** Plan a cut: where to stand, with which stick, and who or what carries the end. */
const PlanSlot = group({ kind: z.literal('plan'), weight });

/** Say what to do, in order, when something goes wrong. */
const ReactSlot = group({
  kind: z.literal('react'),
  weight,
  /** situations to draw from, in content/reactions */
  from: some(slug(), 'situations'),
  count: whole(1, 6),
});

/** Give a figure of the rules, or tell which readings meet one. */
const LimitSlot = group({ kind: z.literal('limit'), weight, count: whole(1, 12) });

export const SlotSchema = z.discriminatedUnion(
  'kind',
  [FindSlot, SetSlot, PlanSlot, ReactSlot, LimitSlot],
  { error: 'must be one of the kinds: find, set, plan, react, limit' },
);

const guardKind = BenchSchema.shape.guard.unwrap().shape.kind;
const cut = BenchSchema.shape.job.shape.cut;

/** How far past its limit a setting is put, counted in the least step that can be told apart. */
const span = z
  .tuple([whole(1, 100), whole(1, 100)], { error: 'must list two whole numbers: [least, most]' })
  .refine(([least, most]) => least <= most, { error: 'must list the smaller number first' });

/** What a test is made of, as a trainer writes it in content/blueprints. */
export const BlueprintSchema = group({
  schema: z.literal('blueprint/1', { error: 'must be "blueprint/1"' }),
  id: slug(),
  /** goes up with every change: an attempt names the one it was made from */
  version: whole(1, 10_000),
  title: text(120),
  /** what the trainee is told before the start */
  brief: text(1200),
  /** in practice the verdict may be asked for on the way; in a test nothing is told before the end */
  mode: choice(['practice', 'test']),
  /** units of competence it bears on, in content/units */
  units: some(slug(), 'units'),
  /** sound benches it starts from, in content/benches */
  benches: some(slug(), 'benches'),
  /** what there is to choose from, in content/racks */
  rack: slug(),
  guards: some(guardKind, 'kinds of guard'),
  cuts: some(cut, 'kinds of cut'),
  /** limit sets in force, the deciding one first */
  limits: some(slug(), 'limit sets'),
  margins: group({ near: span, far: span }),
  tasks: some(SlotSchema, 'tasks'),
  /** minutes; left out, there is no limit of time */
  minutes: whole(1, 600).optional(),
  /** when the result is shown: at once, or when a trainer lets it out; at once when left out */
  feedback: choice(['now', 'later']).optional(),
  pass: PassMarkSchema,
  /** 0 to 100: no part may score less, however well the others went */
  leastPart: whole(0, 100),
}).superRefine((blueprint, context) => {
  const kinds = blueprint.tasks.map(({ kind }) => kind);
  const twice = kinds.find((kind, i) => kinds.indexOf(kind) !== i);
  const refuse = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message });
  if (twice !== undefined) refuse(['tasks'], `must not hold two of the kind ${twice}`);
  if (blueprint.margins.near[1] >= blueprint.margins.far[0]) {
    refuse(['margins', 'far'], 'must begin beyond the end of near');
  }
  blueprint.tasks.forEach((slot, i) => {
    if (slot.kind === 'react' && slot.count > slot.from.length) {
      refuse(
        ['tasks', i, 'count'],
        `must be at most ${slot.from.length}, as many as it draws from`,
      );
    }
    if (slot.kind === 'find' && Object.values(slot.faults).every((count) => count === 0)) {
      refuse(['tasks', i, 'faults'], 'must ask for at least one fault');
    }
  });
});

export type Blueprint = z.infer<typeof BlueprintSchema>;
export type Slot = Blueprint['tasks'][number];
export type SlotKind = Slot['kind'];
export type SlotOf<Kind extends SlotKind> = Extract<Slot, { kind: Kind }>;

export type ReadBlueprint =
  | { readonly ok: true; readonly blueprint: Blueprint }
  | { readonly ok: false; readonly error: Problem };

/** A blueprint from a parsed file, or the first problem with it. Never throws. */
export function readBlueprint(value: unknown): ReadBlueprint {
  const parsed = BlueprintSchema.safeParse(value);
  if (parsed.success) return { ok: true, blueprint: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The blueprint') };
}
