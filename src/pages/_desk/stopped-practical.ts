import type { Site } from '../../accounts/index.ts';
import { STOP_PREFIX } from '../../competence/sheet/index.ts';
import type { Statement } from '../../records/index.ts';

/**
 * Whether an error stopped the work in another unit of the same practical: then nothing of it is signed off.
 * The device refuses that too; this holds for what comes from anywhere else.
 */
export async function isStopped(statement: Statement, { store }: Site): Promise<boolean> {
  if (statement.schema === 'statement/1' || statement.decision !== 'signed-off') return false;
  const { org, practical, who } = statement;
  const signed = await store.events({ org, kinds: ['practical.signed'], about: who.person });
  return signed.some(({ event }) => {
    const other = event?.body.statement;
    if (other === undefined || other.schema === 'statement/1') return false;
    return (
      other.practical === practical && other.criteria.some(({ id }) => id.startsWith(STOP_PREFIX))
    );
  });
}
