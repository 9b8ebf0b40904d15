import { clause, onDay, shortName, type Told, tell } from '../told/told.ts';
import type { UnitStatus } from './unit-status.ts';

/**
 * Why a person stands where they do in one unit. It never says more than what was seen.
 * @param nameOf a person's name by opaque id, as the accounts know it today
 */
export function tellUnitStatus(status: UnitStatus, nameOf: (person: string) => string): Told {
  if (status.by === null) return tell('none');
  const { statement } = status.by.body;
  const called = (person: string) => shortName(nameOf(person));
  const put = { trainer: called(statement.trainer.person), seen: onDay(statement.observedAt) };
  switch (status.state) {
    case 'signed-off':
    case 'ended':
      return tell(status.state, { ...put, until: onDay(status.until) });
    case 'withdrawn': {
      const { by, at, body } = status.withdrawal;
      const reason = clause(body.reason);
      return tell('withdrawn', { trainer: called(by), seen: onDay(at), reason });
    }
    case 'not-yet':
      switch (status.why) {
        case 'not-started':
          return tell('not-started', { ...put, from: onDay(status.from) });
        case 'not-agreed':
          return tell('not-agreed', { ...put, second: called(status.second) });
        case 'evidence':
          return status.missing;
        case 'seen':
          return tell('not-signed', put);
        default:
          return tell(status.why, put);
      }
  }
}
