import { sayDay } from './dates.ts';
import type { UnitStatus } from './unit-status.ts';

/** A name as it stands on a sheet: `Ruth Amsel` becomes `R. Amsel`. One word stays whole. */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const last = words.at(-1) ?? '';
  const first = words[0] ?? '';
  return words.length < 2 ? last : `${[...first][0]}. ${last}`;
}

/**
 * One line on where a person stands, without its full stop: "signed off by R. Amsel after a
 * practical on 3 March 2026, until 3 March 2029". It never says more than what was seen.
 * @param nameOf a person's name by opaque id, as the accounts know it today
 */
export function sayUnitStatus(status: UnitStatus, nameOf: (person: string) => string): string {
  if (status.by === null) return 'not yet, because no practical at this bench has been signed';
  const { statement } = status.by.body;
  const trainer = shortName(nameOf(statement.trainer.person));
  const seen = `a practical on ${sayDay(statement.observedAt)}`;
  switch (status.state) {
    case 'signed-off':
      return `signed off by ${trainer} after ${seen}, until ${sayDay(status.until)}`;
    case 'ended':
      return `ended on ${sayDay(status.until)}; signed off by ${trainer} after ${seen}`;
    case 'withdrawn': {
      const { by, at, body } = status.withdrawal;
      return `withdrawn by ${shortName(nameOf(by))} on ${sayDay(at)}: ${body.reason.replace(/\.$/, '')}`;
    }
    case 'not-yet':
      if (status.why === 'not-started') {
        return `not yet, because the sign-off by ${trainer} starts on ${sayDay(status.from)}`;
      }
      return status.why === 'altered'
        ? 'not yet, because the signed record was altered after it entered the log'
        : `not yet, because ${trainer} watched ${seen} and did not sign off`;
  }
}
