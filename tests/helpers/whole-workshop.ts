import type { Site } from '../../src/accounts/index.ts';
import { peopleOf } from '../../src/accounts/index.ts';
import { type Workshop, workshopOf } from '../../src/pages/_desk/workshop.ts';

/** A workshop with the records of everybody in it. */
export async function wholeWorkshop(org: string, site: Site): Promise<Workshop> {
  const people = (await peopleOf(org, site)).map(({ person }) => person);
  return workshopOf(org, site, { people });
}
