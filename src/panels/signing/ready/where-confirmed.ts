import { keptKit } from '../kit.ts';
import { whoIsHere } from '../send/who-is-here.ts';
import { readinessOf } from './readiness.ts';

/**
 * Where the next signature will be confirmed: on the site while it is reached and knows the trainer, on the
 * device otherwise, if the device can. Asked before a statement is written, since the statement says it.
 */
export async function whereConfirmed(): Promise<'site' | 'device'> {
  const trainer = (await keptKit().catch(() => null))?.trainer.person;
  const here = await whoIsHere(3_000);
  if (typeof here === 'string' && (trainer === undefined || here === trainer)) return 'site';
  const { key, password } = await readinessOf();
  return key === 'enrolled' && password === 'kept' ? 'device' : 'site';
}
