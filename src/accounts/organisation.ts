import { nameHash, newId, newSalt } from '../records/index.ts';
import { asSite } from '../store/index.ts';
import { addPerson } from './add-person.ts';
import { type OrganisationInput, OrganisationSchema } from './fields.ts';
import { hashNewPassword } from './passwords/hash-new-password.ts';
import { grant, type Outcome, refuseAs, refuseForm } from './problems.ts';
import { getSite, type Site } from './site.ts';

export type NewOrganisation = { readonly org: string; readonly person: string };

/** Whether the first run is still to come: no organisation exists, so anybody who opens the site may set it up. */
export async function needsSetUp(site?: Site): Promise<boolean> {
  const { store } = site ?? (await getSite());
  const first = await asSite(() =>
    store.db.selectFrom('organisation').select('id').limit(1).executeTakeFirst(),
  );
  return first === undefined;
}

/**
 * Makes the organisation and its first trainer. Only on the first run: once any organisation exists, the
 * one way in is an invitation. `kind` says whether this is the invented demonstration workshop.
 */
export async function createOrganisation(
  input: OrganisationInput,
  kind: 'real' | 'invented' = 'real',
  site?: Site,
): Promise<Outcome<NewOrganisation>> {
  const read = OrganisationSchema.safeParse(input);
  if (!read.success) {
    return refuseForm(read.error, 'The form');
  }
  const { organisation, name, email, password } = read.data;
  const open = site ?? (await getSite());
  const { store } = open;
  const hashed = await hashNewPassword(open, password, [organisation, name, email]);
  if (!hashed.ok) return hashed;
  const passwordHash = hashed.value;
  const at = new Date().toISOString();

  return store.write(async (write) => {
    const { db, append } = write;
    const existing = await db.selectFrom('organisation').select('id').limit(1).executeTakeFirst();
    if (existing !== undefined) {
      return refuseAs(409, '', { key: 'set-up.done' });
    }
    const org = newId();
    const salt = newSalt();
    const invented = kind === 'invented' ? 1 : 0;
    await db
      .insertInto('organisation')
      .values({ id: org, name: organisation, salt, invented, madeAt: at })
      .execute();
    const person = await addPerson(write, { org, role: 'trainer', name, email, passwordHash }, at);
    await append({
      id: newId(),
      kind: 'organisation.created',
      version: 1,
      org,
      at,
      by: person,
      about: org,
      body: { nameHash: nameHash(organisation, salt) },
    });
    return grant({ org, person });
  });
}
