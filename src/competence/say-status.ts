import { sayDay } from './dates.ts';
import type { UnitStatus } from './unit-status.ts';

/** A name as it stands on a sheet: `Ruth Amsel` becomes `R. Amsel`. One word stays whole. */
export function shortName(name: string): string {
  const words = name.trim().split(/\s+/);
  const last = words.at(-1) ?? '';
  const first = words[0] ?? '';
  return words.length < 2 ? last : `${[...first][0]}. ${last}`;
}

/** Why a person stands where they do, as words and days to be put into a sentence in any language. */
export type Told = {
  readonly kind:
    | 'none'
    | 'signed-off'
    | 'ended'
    | 'withdrawn'
    | 'not-started'
    | 'altered'
    | 'not-signed';
  /** who signed, withdrew or watched, as on a sheet */
  readonly trainer: string;
  /** days as `2026-03-03`, or nothing */
  readonly seen: string;
  readonly until: string;
  readonly from: string;
  /** why it was withdrawn, as the trainer wrote it */
  readonly reason: string;
};

const NOTHING: Told = { kind: 'none', trainer: '', seen: '', until: '', from: '', reason: '' };

/** @param nameOf a person's name by opaque id, as the accounts know it today */
export function tellUnitStatus(status: UnitStatus, nameOf: (person: string) => string): Told {
  if (status.by === null) return NOTHING;
  const { statement } = status.by.body;
  const told = {
    ...NOTHING,
    trainer: shortName(nameOf(statement.trainer.person)),
    seen: statement.observedAt,
  };
  switch (status.state) {
    case 'signed-off':
    case 'ended':
      return { ...told, kind: status.state, until: status.until };
    case 'withdrawn': {
      const { by, at, body } = status.withdrawal;
      const reason = body.reason.replace(/\.$/, '');
      return { ...told, kind: 'withdrawn', trainer: shortName(nameOf(by)), seen: at, reason };
    }
    case 'not-yet':
      if (status.why === 'not-started') return { ...told, kind: 'not-started', from: status.from };
      return { ...told, kind: status.why === 'altered' ? 'altered' : 'not-signed' };
  }
}

/**
 * One line on where a person stands, without its full stop: "signed off by R. Amsel after a
 * practical on 3 March 2026, until 3 March 2029". It never says more than what was seen.
 */
export function sayTold({ kind, trainer, seen, until, from, reason }: Told): string {
  const practical = `a practical on ${sayDay(seen)}`;
  return {
    none: 'not yet, because no practical at this bench has been signed',
    'signed-off': `signed off by ${trainer} after ${practical}, until ${sayDay(until)}`,
    ended: `ended on ${sayDay(until)}; signed off by ${trainer} after ${practical}`,
    withdrawn: `withdrawn by ${trainer} on ${sayDay(seen)}: ${reason}`,
    'not-started': `not yet, because the sign-off by ${trainer} starts on ${sayDay(from)}`,
    altered: 'not yet, because the signed record was altered after it entered the log',
    'not-signed': `not yet, because ${trainer} watched ${practical} and did not sign off`,
  }[kind];
}

/** The same from the state itself. */
export const sayUnitStatus = (status: UnitStatus, nameOf: (person: string) => string): string =>
  sayTold(tellUnitStatus(status, nameOf));
