import type { Day, LogEvent } from '../../competence/index.ts';
import type { SignedEvent } from '../_desk/proof-of.ts';

export type PickedSheets = readonly SignedEvent[];

const isSigned = (event: LogEvent): event is LogEvent & SignedEvent =>
  event.kind === 'practical.signed';

/**
 * The sign-offs of one person that go into a pack: those that the authorisations rest on, and the newest of
 * each unit, work and bench that held on the day. What was taken back, or is signed "not yet", is left out.
 * @param events of this person, up to the instant the pack is about
 */
export function pickSheets(
  events: readonly LogEvent[],
  { asOf, basis }: { readonly asOf: Day; readonly basis: ReadonlySet<string> },
): PickedSheets {
  const withdrawn = new Set(
    events.flatMap(({ body, kind }) =>
      kind === 'practical.withdrawn' && 'signoff' in body ? [body.signoff] : [],
    ),
  );
  const held = events.filter(isSigned).filter(({ body: { signoff, statement } }) => {
    const { decision, validFrom, validUntil } = statement;
    if (decision !== 'signed-off' || withdrawn.has(signoff)) return false;
    return validFrom !== null && validUntil !== null && validFrom <= asOf && asOf <= validUntil;
  });
  const newest = new Map<string, string>();
  for (const { body } of held) {
    const { bench, unit, work } = body.statement;
    newest.set(`${bench.id} ${work} ${unit.id}`, body.signoff);
  }
  const wanted = new Set([...newest.values(), ...basis]);
  return events.filter(isSigned).filter(({ body }) => wanted.has(body.signoff));
}
