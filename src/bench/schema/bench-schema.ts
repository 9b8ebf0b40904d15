import { z } from 'zod';
import { ArborSchema, BladeSchema } from './blade.ts';
import { oneOf, part, yesNo } from './fields.ts';
import {
  FenceSchema,
  GuardSchema,
  InsertSchema,
  KnifeSchema,
  TableSchema,
  UnderPlatesSchema,
} from './guarding.ts';
import { checkGeometry } from './impossible.ts';
import { JobSchema, PeopleSchema } from './job.ts';
import { ControlsSchema, ExposureSchema, ExtractionSchema, PlaceSchema } from './place.ts';

/**
 * One circular saw bench, whole: the machine, how it is set, the job on it, the place and the people.
 *
 * Frame: right-handed, origin on the table surface straight above the arbor axis, in the mid-plane of
 * the blade. `x` along the feed, positive to the take-off end; `y` up; `z` to the operator's right.
 * Lengths in mm, angles in degrees. Nothing here says "fault": faults are worked out from the state
 * and the limits in force. What may be left out was not looked at, and then no fault rests on it.
 */
export const BenchSchema = part({
  schema: z.literal('bench/1', { error: 'must be "bench/1"' }),
  /** what a person calls this bench; free text */
  name: z
    .string({ error: 'must be text' })
    .max(120, { error: 'must be at most 120 characters' })
    .optional(),
  blade: BladeSchema,
  arbor: ArborSchema,
  /** null when it has been taken off */
  knife: KnifeSchema.nullable(),
  /** null when it has been taken off */
  guard: GuardSchema.nullable(),
  underGuard: oneOf('none', 'side-plates', 'enclosed', 'extraction-hood'),
  underPlates: UnderPlatesSchema.optional(),
  /** chips and offcuts are packed round the blade under the table */
  underPacked: yesNo().optional(),
  driveGuard: oneOf('none', 'cover'),
  driveBelt: oneOf('sound', 'slack', 'worn').optional(),
  fence: FenceSchema,
  insert: InsertSchema,
  table: TableSchema,
  controls: ControlsSchema,
  place: PlaceSchema,
  job: JobSchema,
  people: PeopleSchema,
  extraction: ExtractionSchema.optional(),
  exposure: ExposureSchema.optional(),
}).superRefine(checkGeometry);

export type Bench = z.infer<typeof BenchSchema>;
export type Blade = Bench['blade'];
export type Knife = NonNullable<Bench['knife']>;
export type Guard = NonNullable<Bench['guard']>;
