import { z } from 'zod';
import type { Part } from '../bench/index.ts';
import { ConditionSchema, checkCondition } from './condition-schema.ts';
import { choice, group, repeatedId, sentence, slug, yesNo } from './fields.ts';
import { SEEN } from './limit-schema.ts';
import { REMEDY_IDS } from './remedy.ts';
import { BENCH_SCOPE } from './subject.ts';

/** What a fault can be on, in the order a person walks round: the parts of the bench and what serves it. */
export const FAULT_PARTS = [
  'blade',
  'arbor',
  'knife',
  'guard',
  'under-guard',
  'drive',
  'extraction',
  'fence',
  'insert',
  'table',
  'controls',
  'place',
  'storage',
  'stock',
  'push-stick',
  'people',
] as const satisfies readonly (Part | 'extraction' | 'storage')[];

/**
 * Signal words in the sense of ISO 3864: `danger` would kill or maim if the saw ran, `warning` could,
 * `caution` makes an accident likelier or the work worse.
 */
export const SEVERITIES = ['danger', 'warning', 'caution'] as const;
export type Severity = (typeof SEVERITIES)[number];

const FaultShape = group({
  id: slug(),
  title: sentence(80),
  /** what is seen, heard or felt */
  looks: sentence(400),
  /** where a person stands or what they do to find it */
  from: sentence(200),
  /** why it matters */
  why: sentence(500),
  /** what to do, in words */
  do: sentence(400),
  /** which answers are right, the best first */
  remedies: z.array(choice(REMEDY_IDS), { error: 'must be a list of remedies' }).min(1, {
    error: 'must name at least one remedy',
  }),
  severity: choice(SEVERITIES),
  /** with it the bench is not fit to run */
  critical: yesNo(),
  /** the state of the bench that makes it true; no bench carries a tag */
  when: ConditionSchema,
  /** where a figure in `when` comes from */
  source: group({
    document: sentence(200),
    clause: sentence(120).optional(),
    seen: choice(SEEN),
  }).optional(),
});

/** One file of the catalogue: the faults of one part. */
export const FaultFileSchema = group({
  schema: z.literal('faults/1', { error: 'must be "faults/1"' }),
  part: choice(FAULT_PARTS),
  faults: z.array(FaultShape, { error: 'must be a list of faults' }).min(1, {
    error: 'must hold at least one fault',
  }),
}).superRefine((file, context) => {
  const twice = repeatedId(file.faults);
  if (twice !== undefined) {
    context.addIssue({ code: 'custom', path: ['faults'], message: `must not use ${twice} twice` });
  }
  file.faults.forEach((fault, i) => {
    checkCondition(fault.when, { scope: BENCH_SCOPE, verdicts: 'known' }, (path, message) => {
      context.addIssue({ code: 'custom', path: ['faults', i, 'when', ...path], message });
    });
  });
});

export type FaultFile = z.infer<typeof FaultFileSchema>;
export type FaultEntryFile = FaultFile['faults'][number];
export type FaultPart = (typeof FAULT_PARTS)[number];
