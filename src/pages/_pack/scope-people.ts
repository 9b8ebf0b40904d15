import type { Site } from '../../accounts/index.ts';
import { givenLeave } from '../_desk/read-events.ts';
import type { Workshop } from '../_desk/workshop.ts';
import type { PackScope } from './choice.ts';

/** Whom a scope is about: those it names, or everybody here and everybody who held leave and has left. */
export async function scopePeople(
  { people }: Pick<PackScope, 'people'>,
  workshop: Workshop,
  site: Site,
): Promise<readonly string[]> {
  if (people.length > 0) return people;
  const here = workshop.people.map(({ person }) => person);
  return [...new Set([...here, ...(await givenLeave(workshop.org, site))])];
}
