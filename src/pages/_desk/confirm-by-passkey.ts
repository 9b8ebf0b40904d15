import {
  checkPasskey,
  factorsOf,
  giveTickets,
  grant,
  type Outcome,
  type RelyingParty,
  refuseAs,
  relyingParty,
  type Site,
  type Tickets,
  type Viewer,
} from '../../accounts/index.ts';
import { signingHash } from './signing-hash.ts';

/** What is signed: statements in their order, and the enrolment of a key that is new to the site; SHA-256, hexadecimal. */
export type Signing = { readonly hashes: readonly string[]; readonly key: string | null };

/**
 * Signs in again for just these statements by what a passkey answered: a ticket for each, and a last one for the key.
 * @param party whom a passkey has to be for; null where there can be none
 */
export async function confirmByPasskey(
  viewer: Viewer,
  answer: unknown,
  { hashes, key }: Signing,
  party: RelyingParty | null,
  site: Site,
): Promise<Outcome<Tickets>> {
  if (party === null) return refuseAs(409, 'passkey', { key: 'passkey.where' });
  const about = signingHash(hashes, key);
  const asked = { purpose: 'sign', person: viewer.person, about } as const;
  const checked = await checkPasskey(site, party, asked, answer);
  if (!checked.ok) return checked;
  return grant(await giveTickets(site, viewer, key === null ? hashes : [...hashes, key]));
}

/** Whether a form may offer this person to sign with a passkey: they have one, and it works at this address. */
export async function offersPasskey(viewer: Viewer, here: URL, site: Site): Promise<'yes' | 'no'> {
  if (relyingParty(site, here.origin) === null) return 'no';
  const { passkeys } = await factorsOf(site.store.db, viewer.person);
  return passkeys.length > 0 ? 'yes' : 'no';
}
