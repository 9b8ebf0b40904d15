import { NewPasswordSchema } from './fields.ts';
import { grant, type Outcome, refuseForm } from './problems.ts';
import type { Site } from './site.ts';

/** Gives a person a new password and ends every session they have. */
export async function setPassword(
  { auth, store }: Site,
  person: string,
  password: string,
): Promise<Outcome<null>> {
  const read = NewPasswordSchema.safeParse({ password });
  if (!read.success) {
    return refuseForm(read.error, 'The form');
  }
  const hash = await (await auth.$context).password.hash(read.data.password);
  await store.write(async ({ db }) => {
    await db
      .updateTable('account')
      .set({ password: hash, updatedAt: new Date().toISOString() })
      .where('userId', '=', person)
      .where('providerId', '=', 'credential')
      .execute();
    await db.deleteFrom('session').where('userId', '=', person).execute();
  });
  return grant(null);
}
