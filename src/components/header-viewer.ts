/** Tells the header of a page built ahead who is signed in. Browser code; without it the page stays as built. */
import type { Role } from '../accounts/index.ts';

type Shown = { readonly name: string; readonly role: Role };

/** What /api/people/me sends; anything else counts as nobody. */
function readShown(value: unknown): Shown | null {
  if (typeof value !== 'object' || value === null) return null;
  if (!('name' in value && 'role' in value)) return null;
  const { name, role } = value;
  const isRole = role === 'trainee' || role === 'trainer' || role === 'employer';
  return typeof name === 'string' && isRole ? { name, role } : null;
}

async function askViewer(): Promise<Shown | null> {
  try {
    const reply = await fetch('/api/people/me');
    return reply.ok ? readShown(await reply.json()) : null;
  } catch {
    // no network: the page was built to be read without it
    return null;
  }
}

export async function showViewer(): Promise<void> {
  const header = document.querySelector<HTMLElement>('.strip[data-ask-viewer]');
  const viewer = header === null ? null : await askViewer();
  if (header === null || viewer === null) return;
  for (const places of header.querySelectorAll<HTMLElement>('[data-places-of]')) {
    places.hidden = places.dataset['placesOf'] !== viewer.role;
  }
  const person = header.querySelector<HTMLElement>('.strip-person');
  const role = document.createElement('small');
  role.textContent = person?.dataset[viewer.role] ?? viewer.role;
  person?.replaceChildren(viewer.name, role);
  for (const part of header.querySelectorAll<HTMLElement>('.strip-person, form'))
    part.hidden = false;
  const signIn = header.querySelector<HTMLElement>('[data-sign-in]');
  if (signIn !== null) signIn.hidden = true;
}
