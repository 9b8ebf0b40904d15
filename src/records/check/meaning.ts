import type { Authorisation } from '../statement/authorisation-schema.ts';
import type { Cosign } from '../statement/cosign-schema.ts';
import type { Statement } from '../statement/statement-schema.ts';

type WithoutMeaning<One> = One extends unknown ? Omit<One, 'meaning'> : never;
/** What the sentence of meaning is made from: the statement without it. */
export type Unsaid = WithoutMeaning<Statement>;

/** Name of each operation inside a sentence. */
const WORK: Record<Statement['work'], string> = {
  rip: 'ripping',
  crosscut: 'crosscutting',
  bevel: 'bevel cutting',
  deep: 'deep cutting',
  rebate: 'rebating',
  groove: 'grooving',
};

const HEARD = {
  agrees: 'I told this person the result, and they agreed.',
  disagrees: 'I told this person the result, and they did not agree; what they said stands above.',
  'not-asked': 'I did not tell this person the result.',
} as const;

/** Of statement/2 on, the sentence on what the person watched said to it. */
const hearingOf = (statement: Unsaid): string =>
  statement.schema === 'statement/1' ? '' : ` ${HEARD[statement.acknowledged.answer]}`;

/**
 * The sentences a trainer signs to. They are made from the statement, so they cannot say anything
 * else than its fields, and they are part of what is signed. The wording belongs to the version:
 * new wording is a new version of the statement, since the old one must go on reading as it was.
 */
export function meaningOf(statement: Unsaid): string {
  const { bench, conditions, decision, observedAt, unit, validFrom, validUntil, work } = statement;
  const saw =
    `I watched this person at ${bench.asset} on ${observedAt}, ${WORK[work]}, for the unit ` +
    `"${unit.title}". The results above are what I saw, and the settings above are what I measured ` +
    'with the instruments named.';
  const heard = hearingOf(statement);
  if (decision === 'not-yet') {
    return `${saw}${heard} Not every criterion was met, so I do not sign this person off for this work.`;
  }
  const under = conditions.length === 0 ? '' : ' under the conditions above,';
  return (
    `${saw}${heard} Every criterion was met, and I sign this person off for this work on this bench,` +
    `${under} from ${validFrom} until ${validUntil}. This goes into the employer's record of ` +
    'supervised competence. It is not a licence.'
  );
}

/** The sentences a second trainer signs to. The wording belongs to cosign/1. */
export function cosignMeaningOf({ answer, unit }: Omit<Cosign, 'meaning'>): string {
  const read = `I read the signed practical named above, for the unit "${unit}".`;
  return answer === 'agrees'
    ? `${read} I agree with its result, as a second trainer.`
    : `${read} I do not agree with its result, for the reason above, and it should not count until the person has been watched again.`;
}

const listOf = (works: readonly Statement['work'][]): string =>
  works.map((work) => WORK[work]).join(', ');

/** The sentences of leave in writing. The wording belongs to authorisation/1. */
export function authorisationMeaningOf(statement: Omit<Authorisation, 'meaning'>): string {
  const { bench, from, supervised, until, work } = statement;
  const how =
    supervised === 'always' ? ', only while somebody named in the record supervises,' : '';
  return (
    `This person may use ${bench.asset} for ${listOf(work)}${how} under the conditions above, from ` +
    `${from} until ${until}. It rests after a near miss, a change of the machine or its guard, or a ` +
    "long break, until it is refreshed. This is the employer's record of supervised competence. It " +
    'is not a licence.'
  );
}
