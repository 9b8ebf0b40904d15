import { z } from 'zod';
import { choice, group, text, whole } from './fields.ts';

/** How a pass mark can have been set. Only the first is a method; the second says that it is none. */
export const PASS_METHODS = ['modified-angoff', 'provisional'] as const;

/**
 * The pass mark and how it was set. `not-set-yet` stands until somebody has set one: then a result
 * shows its score and says neither passed nor failed.
 */
export const PassMarkSchema = z.union(
  [
    z.literal('not-set-yet'),
    group({
      /** 0 to 100: the least score that passes */
      mark: whole(1, 100),
      method: choice(PASS_METHODS),
      /** who set it and from what, for whoever asks */
      basis: text(300),
    }),
  ],
  { error: 'must be not-set-yet, or a group of fields: mark, method, basis' },
);

export type PassMark = z.infer<typeof PassMarkSchema>;
