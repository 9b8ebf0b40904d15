import { z } from 'zod';
import { type Bytes, fromBase64, openCheckpoint, verifyConsistency } from '../check/index.ts';
import { fields } from '../fields.ts';

/** First field of the file that shows a log going on from an earlier checkpoint. */
export const CONSISTENCY_FORMAT = 'signed-to-saw/consistency/1';

export const ConsistencyFileSchema = fields({
  format: z.literal(CONSISTENCY_FORMAT, { error: `must be "${CONSISTENCY_FORMAT}"` }),
  /** the checkpoint of an earlier pack, a signed note */
  earlier: z.string({ error: 'must be a checkpoint' }).max(65_536),
  /** the newest one */
  newest: z.string({ error: 'must be a checkpoint' }).max(65_536),
  /** RFC 6962 consistency proof, base 64 */
  path: z.array(z.string(), { error: 'must list the hashes' }).max(64),
});
export type ConsistencyFile = z.infer<typeof ConsistencyFileSchema>;

/** Whether the log of the newest checkpoint begins with the log of the earlier one. Never throws. */
export async function holdsConsistency(file: ConsistencyFile, publicKey: Bytes): Promise<boolean> {
  const [earlier, newest] = await Promise.all([
    openCheckpoint(file.earlier, [publicKey]),
    openCheckpoint(file.newest, [publicKey]),
  ]);
  if (!earlier.ok || !newest.ok) return false;
  const path = file.path.flatMap((hash) => fromBase64(hash) ?? []);
  if (path.length !== file.path.length) return false;
  if (earlier.checkpoint.origin !== newest.checkpoint.origin) return false;
  return verifyConsistency({
    first: earlier.checkpoint.size,
    second: newest.checkpoint.size,
    firstRoot: earlier.checkpoint.root,
    secondRoot: newest.checkpoint.root,
    path,
  });
}
