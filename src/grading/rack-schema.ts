import { z } from 'zod';
import { BenchSchema, BIRMINGHAM_GAUGE, describeProblem, type Problem } from '../bench/index.ts';
import { inchesToMm } from '../geometry/index.ts';

const must = 'must be lower-case words joined by hyphens, at most 60 characters';
const id = z
  .string({ error: must })
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, { error: must })
  .max(60, { error: must });

function text(most: number) {
  const wanted = `must be text of 1 to ${most} characters`;
  return z.string({ error: wanted }).trim().min(1, { error: wanted }).max(most, { error: wanted });
}

/** mm: how far a rolled plate may be from the gauge it is sold by. Common practice, no source. */
const GAUGE_SLACK = 0.05;
const gauges = Object.keys(BIRMINGHAM_GAUGE).join(', ');

/** A blade that hangs in the rack: what is marked on it and what a calliper reads. */
const RackBladeSchema = BenchSchema.shape.blade
  .pick({
    diameter: true,
    plate: true,
    kerf: true,
    teeth: true,
    gulletDepth: true,
    hookAngle: true,
    maxSpeed: true,
  })
  .extend({
    id,
    title: text(80),
    /** Birmingham gauge of the plate, where it is sold by one */
    gauge: z
      .number({ error: `must be one of: ${gauges}` })
      .refine((gauge) => Object.hasOwn(BIRMINGHAM_GAUGE, gauge), {
        error: `must be one of: ${gauges}`,
      })
      .optional(),
  });

const RackKnifeSchema = BenchSchema.shape.knife
  .unwrap()
  .pick({ thickness: true, edgeRadius: true, reach: true })
  .extend({ id, title: text(80) });

/** Blades and riving knives of one workshop, `rack/1`. */
export const RackSchema = z
  .strictObject(
    {
      schema: z.literal('rack/1', { error: 'must be "rack/1"' }),
      id,
      title: text(80),
      blades: z.array(RackBladeSchema, { error: 'must be a list of blades' }).min(1, {
        error: 'must hold at least one blade',
      }),
      knives: z.array(RackKnifeSchema, { error: 'must be a list of riving knives' }),
    },
    {
      error: (issue) =>
        issue.code === 'unrecognized_keys'
          ? `has no field named ${issue.keys.join(', ')}`
          : 'must be given, as a group of fields',
    },
  )
  .superRefine(({ blades, knives }, context) => {
    const refuse = (path: (string | number)[], message: string) =>
      context.addIssue({ code: 'custom', path, message });
    const ids = [...blades, ...knives].map((one) => one.id);
    const twice = ids.find((one, i) => ids.indexOf(one) !== i);
    if (twice !== undefined) refuse(['blades'], `must not use ${twice} twice`);
    blades.forEach(({ kerf, plate, gauge, gulletDepth, diameter }, i) => {
      if (kerf < plate) refuse(['blades', i, 'kerf'], `must be at least the plate (${plate} mm)`);
      if (2 * gulletDepth >= diameter) {
        refuse(['blades', i, 'gulletDepth'], `must be less than half the diameter`);
      }
      const inches = gauge === undefined ? undefined : BIRMINGHAM_GAUGE[gauge];
      if (inches === undefined || Math.abs(plate - inchesToMm(inches)) <= GAUGE_SLACK) return;
      refuse(
        ['blades', i, 'plate'],
        `must be about ${inchesToMm(inches).toFixed(2)} mm, as gauge ${gauge} is`,
      );
    });
  });

export type Rack = z.infer<typeof RackSchema>;
export type RackBlade = Rack['blades'][number];
export type RackKnife = Rack['knives'][number];

export type ReadRack =
  | { readonly ok: true; readonly rack: Rack }
  | { readonly ok: false; readonly error: Problem };

/** A rack from a parsed file, or the first problem with it. Never throws. */
export function readRack(value: unknown): ReadRack {
  const parsed = RackSchema.safeParse(value);
  if (parsed.success) return { ok: true, rack: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The rack') };
}
