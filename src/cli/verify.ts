import { describeProblem } from '../bench/index.ts';
import {
  isZip,
  ProofHeadSchema,
  type ProvedAuthorisation,
  type ProvedRecord,
  type Verdict,
  verifyProof,
} from '../records/index.ts';
import { BadInput, parseJson, printable, readBytes, runCommand } from './read-input.ts';
import { readVerifyArguments, VERIFY_USAGE } from './verify-arguments.ts';
import { verifyPack } from './verify-pack.ts';

/**
 * Checks a proof file, or a whole pack of them, with no network and no site. Exit code 0: genuine; 1: any other verdict;
 * 2: bad input, with one sentence on standard error.
 */

const GENUINE = 0;
const NOT_GENUINE = 1;

/** Bytes; a proof is about 10 kB, and a long statement may make it ten times that. */
const LARGEST_PROOF = 4_000_000;

/** Bytes; a pack of a hundred people is a few million, and more with photos. */
const LARGEST_PACK = 500_000_000;

const MARKS = { ok: 'ok', failed: 'FAILED', unknown: 'unknown' } as const;

const listOf = (words: readonly string[]): string => words.join(', ');

function describeLeave(record: ProvedAuthorisation): string[] {
  const { bench, conditions, giver, largest, machine, organisation, supervised, work } = record;
  const who = record.trainee ?? 'A person not named';
  const sizes = [
    largest.thickness === null ? [] : [`${largest.thickness} mm thick`],
    largest.length === null ? [] : [`${largest.length} mm long`],
  ].flat();
  return [
    `${who}: may do ${listOf(work)} on ${bench}, a ${machine}, for ${organisation}. Given by ` +
      `${giver ?? 'somebody not named'}. Holds from ${record.validFrom} to ${record.validUntil}.`,
    ...(supervised === 'always' ? ['Only while a supervisor is at the bench.'] : []),
    ...(sizes.length === 0 ? [] : [`Stock up to ${listOf(sizes)}.`]),
    ...conditions,
    'It rests on:',
    ...record.practicals.flatMap(({ criteria, observedAt, settings, trainer, unit }) => [
      `  - "${unit}", watched on ${observedAt} by ${trainer ?? 'a trainer not named'}`,
      ...criteria.map(({ result, text }) => `      ${result}: ${text}`),
      ...settings.map(
        (one) =>
          `      ${one.measure} ${one.value} ${one.unit}, ${one.verdict} (${one.instrument})`,
      ),
    ]),
  ];
}

function describeRecord(record: ProvedRecord): string[] {
  if (record.kind === 'authorisation') return describeLeave(record);
  const who = record.trainee ?? 'A person not named';
  const by = record.trainer ?? 'a trainer not named';
  return [
    `${who}: ${record.work} on ${record.bench}, "${record.unit}", watched on ${record.observedAt} ` +
      `by ${by}, for ${record.organisation}. Holds from ${record.validFrom} to ${record.validUntil}.`,
  ];
}

function writeText(
  { cannotKnow, checks, record, sentence, verdict }: Verdict,
  hasTrust: boolean,
): string {
  const lines = checks.map((check) => `  ${MARKS[check.state].padEnd(8)} ${check.sentence}`);
  const hint =
    verdict === 'not from a trusted signer' && !hasTrust
      ? ['Name the signers you trust with --trust did:key:..., as they told you themselves.']
      : [];
  return [
    ...lines,
    '',
    sentence,
    ...(record === null ? [] : describeRecord(record)),
    ...hint,
    '',
    'What this check rests on, and cannot tell:',
    ...cannotKnow.map((one) => `  - ${one}`),
  ]
    .map(printable)
    .join('\n');
}

async function verify(words: readonly string[]): Promise<number> {
  const asked = await readVerifyArguments(words, new Date());
  if (asked === 'help') {
    process.stdout.write(`${VERIFY_USAGE}\n`);
    return GENUINE;
  }
  const name = asked.file === '-' ? 'Standard input' : asked.file;
  const bytes = await readBytes(asked.file, LARGEST_PACK);
  if (isZip(bytes)) return verifyPack(bytes, asked, name);
  if (bytes.length > LARGEST_PROOF) {
    throw new BadInput(`${name} must be at most ${LARGEST_PROOF} bytes; it has ${bytes.length}.`);
  }
  const file = parseJson(bytes.toString('utf8'), name);
  const head = ProofHeadSchema.safeParse(file);
  if (!head.success)
    throw new BadInput(`${name}: ${describeProblem(head.error, 'The file').message}`);
  const verdict = await verifyProof(file, asked);
  const text =
    asked.form === 'json' ? JSON.stringify(verdict) : writeText(verdict, asked.trusted.length > 0);
  process.stdout.write(`${text}\n`);
  return verdict.verdict === 'genuine' ? GENUINE : NOT_GENUINE;
}

await runCommand(verify, 'The proof cannot be checked');
