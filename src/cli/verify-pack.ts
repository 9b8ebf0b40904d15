import { checkPack, type FileVerdict, type PackVerdict, readZip } from '../records/index.ts';
import { BadInput, printable } from './read-input.ts';
import type { VerifyArguments } from './verify-arguments.ts';

const sayFile = ({ path, sentence, verdict }: FileVerdict): string =>
  `  ${verdict.padEnd(26)}${path}: ${sentence}`;

function writeText({ at, files, manifest, sentence }: PackVerdict, hasTrust: boolean): string {
  const about =
    manifest === null
      ? []
      : [
          `A pack of ${manifest.organisation} about ${manifest.asOf}, made at ${manifest.made}, id ${manifest.id}.`,
          `The log had ${manifest.log.size} entries, root ${manifest.log.root}.`,
          `The question is about ${at}. To ask about another day: --at DATE.`,
        ];
  const hint = hasTrust
    ? []
    : ['Name the signers you trust with --trust did:key:..., as they told you themselves.'];
  return [
    ...files.map(sayFile),
    '',
    sentence,
    ...about,
    ...hint,
    '',
    'This shows that the pack is as the site signed it, and that each proof in it holds. It cannot show that a',
    'practical went as written, or that nobody was left out: that rests on the trainers and on the employer.',
  ]
    .map(printable)
    .join('\n');
}

/** Checks a whole pack: exit code 0 when every file is genuine, 1 for any other verdict. @throws BadInput */
export async function verifyPack(
  bytes: Uint8Array,
  { askedAt, form, trusted }: VerifyArguments,
  name: string,
): Promise<number> {
  const files = readZip(bytes);
  if (files === null) throw new BadInput(`${name} must be a pack: a zip that can be read whole.`);
  const verdict = await checkPack(files, { trusted, at: askedAt });
  const text = form === 'json' ? JSON.stringify(verdict) : writeText(verdict, trusted.length > 0);
  process.stdout.write(`${text}\n`);
  return verdict.verdict === 'genuine' ? 0 : 1;
}
