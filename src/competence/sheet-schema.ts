import { z } from 'zod';
import { INSTRUMENT_IDS, type InstrumentId } from '../bench/index.ts';
import { isDay } from './dates.ts';
import type { Sheet } from './sheet/index.ts';
import { WORK_KINDS } from './work.ts';

/** Messages finish the sentence "FIELD ...". */
const id = () => {
  const must = 'must be an id of 1 to 80 letters, digits or dashes';
  return z.string({ error: must }).regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/, { error: must });
};

function text(most: number) {
  const must = `must be text of 1 to ${most} characters`;
  return z.string({ error: must }).trim().min(1, { error: must }).max(most, { error: must });
}

function size(least: number, most: number, unit = 'mm') {
  const must = `must be a number from ${least} to ${most} ${unit}`;
  return z.number({ error: must }).min(least, { error: must }).max(most, { error: must });
}

const day = () =>
  z
    .string({ error: 'must be a date such as 2026-03-03' })
    .refine(isDay, { error: 'must be a date such as 2026-03-03' });

const list = <Item extends z.ZodType>(item: Item, most: number) =>
  z.array(item, { error: 'must be a list' }).max(most, { error: `must list at most ${most}` });

const instrument = () =>
  z.custom<InstrumentId>((value) => INSTRUMENT_IDS.some((one) => one === value), {
    error: `must be one of: ${INSTRUMENT_IDS.join(', ')}`,
  });

const BladeSeenSchema = z.strictObject({
  diameter: size(50, 2000),
  kerf: size(0.3, 20),
  plate: size(0.3, 20),
  teeth: z.int({ error: 'must be a whole number from 2 to 200' }).min(2).max(200),
});

const ReadingSchema = z.strictObject({
  setting: id(),
  value: size(-100_000, 100_000, 'mm or inches'),
  unit: z.enum(['mm', 'inch'], { error: 'must be one of: mm, inch' }),
  instrument: instrument(),
});

const uuid = () => z.uuid({ error: 'must be an id such as 01890a5d-ac96-774b-bcce-b302099a8057' });

const digest = () => {
  const must = 'must be a SHA-256, 64 hexadecimal digits';
  return z.string({ error: must }).regex(/^[0-9a-f]{64}$/, { error: must });
};

const PLACES = ['site', 'device'] as const;
const ANSWERS = ['agrees', 'disagrees', 'not-asked'] as const;

/** What is signed with every unit of one practical, statement/2. */
const together = {
  practical: uuid().exactOptional(),
  photos: list(
    z.strictObject({ digest: digest(), criterion: id().nullable() }),
    24,
  ).exactOptional(),
  acknowledged: z
    .strictObject({
      answer: z.enum(ANSWERS, { error: `must be one of: ${ANSWERS.join(', ')}` }),
      words: text(500).nullable(),
    })
    .exactOptional(),
  confirmed: z.enum(PLACES, { error: `must be one of: ${PLACES.join(', ')}` }).exactOptional(),
};

/** A checked practical sheet as the browser sends it. The fields of `together` come all, or none. */
const fields = z.strictObject({
  ...together,
  person: id(),
  bench: id(),
  work: z.enum(WORK_KINDS, { error: `must be one of: ${WORK_KINDS.join(', ')}` }),
  unit: id(),
  observedAt: day(),
  place: text(120),
  material: text(120),
  blade: BladeSeenSchema,
  criteria: list(
    z.strictObject({
      id: id(),
      result: z.enum(['yes', 'no', 'not-seen'], { error: 'must be one of: yes, no, not-seen' }),
      note: text(500).exactOptional(),
    }),
    60,
  ),
  readings: list(ReadingSchema, 40),
  stops: list(id(), 20),
  stopNote: text(500).exactOptional(),
  conditions: list(text(200), 12),
  decision: z.enum(['signed-off', 'not-yet'], { error: 'must be one of: signed-off, not-yet' }),
  validFrom: day().nullable(),
  validUntil: day().nullable(),
}) satisfies z.ZodType<Sheet>;

export const SheetSchema = fields.superRefine((sheet, context) => {
  if (sheet.practical === undefined) return;
  for (const field of Object.keys(together) as (keyof typeof together)[]) {
    if (sheet[field] !== undefined) continue;
    context.addIssue({ code: 'custom', path: [field], message: 'must be given with practical' });
  }
});
