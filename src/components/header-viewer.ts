/** Tells the header of a page built ahead who is signed in. Browser code; without it the page stays as built. */
import type { Role } from '../accounts/index.ts';
import { isAt, placesFor } from './places.ts';

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

function placeItem(href: string, name: string, isHere: boolean): HTMLLIElement {
  const link = document.createElement('a');
  link.href = href;
  link.textContent = name;
  if (isHere) link.setAttribute('aria-current', 'page');
  const item = document.createElement('li');
  item.append(link);
  return item;
}

export async function showViewer(): Promise<void> {
  const header = document.querySelector<HTMLElement>('.strip[data-ask-viewer]');
  const viewer = header === null ? null : await askViewer();
  if (header === null || viewer === null) return;
  header
    .querySelector('nav ul')
    ?.replaceChildren(
      ...placesFor(viewer.role).map((place) =>
        placeItem(place.href, place.name, isAt(place, location.pathname)),
      ),
    );
  const role = document.createElement('small');
  role.textContent = viewer.role;
  header.querySelector('.strip-person')?.replaceChildren(viewer.name, role);
  for (const part of header.querySelectorAll<HTMLElement>('.strip-person, form'))
    part.hidden = false;
  const signIn = header.querySelector<HTMLElement>('[data-sign-in]');
  if (signIn !== null) signIn.hidden = true;
}
