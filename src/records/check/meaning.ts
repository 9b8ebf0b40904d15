import type { Statement } from '../statement/statement-schema.ts';

/** What the sentence of meaning is made from: the statement without it. */
export type Unsaid = Omit<Statement, 'meaning'>;

/** Name of each operation inside a sentence. */
const WORK: Record<Statement['work'], string> = {
  rip: 'ripping',
  crosscut: 'crosscutting',
  bevel: 'bevel cutting',
  deep: 'deep cutting',
  rebate: 'rebating',
  groove: 'grooving',
};

/**
 * The sentences a trainer signs to. They are made from the statement, so they cannot say anything
 * else than its fields, and they are part of what is signed. The wording belongs to statement/1:
 * new wording is a new version of the statement, since the old one must go on reading as it was.
 */
export function meaningOf(statement: Unsaid): string {
  const { bench, conditions, decision, observedAt, unit, validFrom, validUntil, work } = statement;
  const saw =
    `I watched this person at ${bench.asset} on ${observedAt}, ${WORK[work]}, for the unit ` +
    `"${unit.title}". The results above are what I saw, and the settings above are what I measured ` +
    'with the instruments named.';
  if (decision === 'not-yet') {
    return `${saw} Not every criterion was met, so I do not sign this person off for this work.`;
  }
  const under = conditions.length === 0 ? '' : ' under the conditions above,';
  return (
    `${saw} Every criterion was met, and I sign this person off for this work on this bench,` +
    `${under} from ${validFrom} until ${validUntil}. This goes into the employer's record of ` +
    'supervised competence. It is not a licence.'
  );
}
