import { z } from 'zod';
import { type Action, CLAMPED_PARTS, SETTING_IDS } from './actions.ts';
import { INSTRUMENT_IDS } from './instruments.ts';
import { MEASURING_POINT_IDS } from './measuring-points.ts';

const must = (words: readonly string[]) => ({ error: `must be one of: ${words.join(', ')}` });
const part = z.enum(CLAMPED_PARTS, must(CLAMPED_PARTS));
const TO = { error: 'must be a number of mm from -1000 to 1000' };

const STOPPED = { error: 'must be a number of s from 0 to 100000' };

/** What may be sent as an action: the server's edge. */
export const ActionSchema: z.ZodType<Action> = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal(['isolate', 'reconnect']) }),
  z.strictObject({ do: z.literal(['start', 'stop', 'wait']) }),
  z.strictObject({
    do: z.literal('feed'),
    stopped: z.number(STOPPED).min(0, STOPPED).max(100_000, STOPPED).nullable(),
  }),
  z.strictObject({ do: z.literal(['unlock', 'lock']), part }),
  z.strictObject({
    do: z.literal('set'),
    setting: z.enum(SETTING_IDS, must(SETTING_IDS)),
    to: z.number(TO).min(-1000, TO).max(1000, TO),
  }),
  z.strictObject({ do: z.literal(['rest-fingers', 'raise-fingers']) }),
  z.strictObject({
    do: z.literal('measure'),
    with: z.enum(INSTRUMENT_IDS, must(INSTRUMENT_IDS)),
    at: z.enum(MEASURING_POINT_IDS, must(MEASURING_POINT_IDS)),
    read: z.number(TO).min(-1000, TO).max(1000, TO).nullable().exactOptional(),
  }),
  z.strictObject({ do: z.literal('try'), part }),
  z.strictObject({ do: z.literal('look'), at: z.string({ error: 'must be text' }).max(40) }),
]);
