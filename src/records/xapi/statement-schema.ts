import { z } from 'zod';
import { fields, InstantSchema, OpaqueIdSchema, oneOf, text, UuidSchema } from '../fields.ts';

/*
 * The part of IEEE 9274.1.1 (xAPI 2.0, 2023) this site writes, from memory of the standard: the text of it
 * was not at hand. `stored` and `authority` belong to whoever receives a statement, and are never sent.
 */

/** An absolute address that names something and need not open. */
const IriSchema = z
  .string({ error: 'must be an absolute address' })
  .refine((value) => URL.canParse(value) && /^https?:/.test(value), {
    error: 'must be an absolute address beginning with http',
  });

/** Words by language tag (RFC 5646), at least one. */
const LanguageMapSchema = fields({ en: text(300) });

/** Somebody, by an account: the address of the site and an opaque id, which names nobody by itself. */
const AgentSchema = fields({
  objectType: z.literal('Agent'),
  account: fields({ homePage: IriSchema, name: OpaqueIdSchema }),
});

const ActivitySchema = fields({
  objectType: z.literal('Activity'),
  id: IriSchema,
  definition: fields({ type: IriSchema, name: LanguageMapSchema }),
});

/** ISO 8601, in whole seconds. */
const DurationSchema = z.string().regex(/^PT\d+S$/, { error: 'must be a duration such as PT90S' });

const ResultSchema = fields({
  success: z.boolean().optional(),
  completion: z.boolean().optional(),
  duration: DurationSchema.optional(),
});

const ContextSchema = fields({
  instructor: AgentSchema.optional(),
  contextActivities: fields({
    grouping: z.array(ActivitySchema).min(1).optional(),
    category: z.array(ActivitySchema).min(1).optional(),
  }).optional(),
  /** the statement this one is about as well */
  statement: fields({ objectType: z.literal('StatementRef'), id: UuidSchema }).optional(),
});

/** One statement as it is written. */
export const XapiStatementSchema = fields({
  /** the id of the event: the same event gives the same statement for ever */
  id: UuidSchema,
  actor: AgentSchema,
  verb: fields({ id: IriSchema, display: LanguageMapSchema }),
  object: ActivitySchema,
  result: ResultSchema.optional(),
  context: ContextSchema.optional(),
  timestamp: InstantSchema,
  version: oneOf('2.0.0'),
});

export type XapiStatement = z.infer<typeof XapiStatementSchema>;
export type XapiActivity = z.infer<typeof ActivitySchema>;
export type XapiAgent = z.infer<typeof AgentSchema>;
