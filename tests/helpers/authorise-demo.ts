import { besideSite, enterLeave, type LeaveSaid, partsOfDemo } from './demo-parts.ts';
import type { Site } from './site.ts';

/** Leave in writing for somebody of the demo to rip on AL-01, given by Anna Weir, beside the running site. */
export const authoriseDemo = (
  running: Site,
  leave: Pick<LeaveSaid, 'from' | 'until'> & {
    readonly name: string;
    /** the sign-offs it rests on */
    readonly basis: readonly string[];
    /** when it was given, by the clock of the device */
    readonly at?: string;
    readonly supervised?: LeaveSaid['supervised'];
  },
): Promise<string> =>
  besideSite(running, async (site) => {
    const parts = await partsOfDemo(site);
    const { at, from, name, supervised = 'as-usual', until } = leave;
    const between = {
      who: parts.person(name),
      by: parts.person('Anna Weir'),
      role: 'employer',
    } as const;
    const largest = { thickness: 60, length: null };
    const said = { from, until, supervised, largest, conditions: [], basis: [...leave.basis] };
    return enterLeave(site, parts, between, said, at);
  });
