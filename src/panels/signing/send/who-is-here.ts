import { getJson } from '../post-json.ts';

/** The person signed in on the site in this browser: null for nobody, undefined when it is not reached. */
export async function whoIsHere(wait = 5_000): Promise<string | null | undefined> {
  const reply = await getJson<unknown>('/api/people/me', wait);
  if (!reply.ok) return undefined;
  if (reply.value === null) return null;
  if (typeof reply.value !== 'object' || !('person' in reply.value)) return undefined;
  const { person } = reply.value;
  return typeof person === 'string' ? person : undefined;
}
