import { addDays, dayOf } from '../../src/competence/index.ts';
import { signOffInFull } from '../book/signed-off.ts';
import { besideSite, partsOfDemo } from './demo-parts.ts';
import type { Site } from './site.ts';

/** Signs somebody of the demo off in full for ripping on AL-01, beside the running site. */
export const signOffDemo = (running: Site, name: string): Promise<string[]> =>
  besideSite(running, async (site) => {
    const { bench, org, person } = await partsOfDemo(site);
    const day = addDays(dayOf(new Date().toISOString()), -1);
    const [who, trainer] = [person(name), person('Ruth Amsel')];
    return signOffInFull(site, { trainer, who, org, bench, work: 'rip', day });
  });
