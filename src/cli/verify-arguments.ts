import { describeProblem } from '../bench/index.ts';
import { DateSchema, InstantSchema, TrustedSignerSchema } from '../records/index.ts';
import { BadInput, readText } from './read-input.ts';
import { readOptions } from './read-options.ts';

export const VERIFY_USAGE =
  'Usage: npm run --silent verify -- FILE [--trust did:key:...] [--trust-file FILE] [--at DATE] [--json]';

export type VerifyArguments = {
  /** a path, or `-` for standard input */
  readonly file: string;
  readonly trusted: readonly string[];
  /** moment the question is about */
  readonly at: string;
  /** the same, null where none was asked for: a pack is then asked about the moment it was made */
  readonly askedAt: string | null;
  readonly form: 'text' | 'json';
};

/** Bytes; room for thousands of signers. */
const LARGEST_TRUST_FILE = 1_000_000;

function parseWords(words: readonly string[]) {
  return readOptions(
    {
      args: [...words],
      allowPositionals: true,
      options: {
        trust: { type: 'string', multiple: true },
        'trust-file': { type: 'string', multiple: true },
        at: { type: 'string' },
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    },
    VERIFY_USAGE,
  );
}

/** A signer to trust, from the command line or a file. @throws BadInput */
export function readSigner(text: string, where: string): string {
  const read = TrustedSignerSchema.safeParse(text);
  if (read.success) return read.data;
  throw new BadInput(`${where}: ${describeProblem(read.error, `"${text}"`).message}`);
}

/** Signers listed one a line; empty lines and lines that begin with # are passed over. */
async function readTrustFile(file: string): Promise<string[]> {
  const lines = (await readText(file, LARGEST_TRUST_FILE)).split(/\r?\n/);
  return lines
    .map((line, index) => ({ text: line.trim(), where: `${file}, line ${index + 1}` }))
    .filter(({ text }) => text !== '' && !text.startsWith('#'))
    .map(({ text, where }) => readSigner(text, where));
}

function readMoment(text: string | undefined, now: Date): string {
  if (text === undefined) return now.toISOString();
  if (DateSchema.safeParse(text).success) return `${text}T12:00:00.000Z`;
  if (InstantSchema.safeParse(text).success) return text;
  throw new BadInput(`--at must be a date such as 2026-03-03, not "${text}".`);
}

/**
 * @returns `help` when only the usage was asked for
 * @throws BadInput
 */
export async function readVerifyArguments(
  words: readonly string[],
  now: Date,
): Promise<VerifyArguments | 'help'> {
  const { positionals, values } = parseWords(words);
  if (values.help === true) return 'help';
  const [file, extra] = positionals;
  if (file === undefined) throw new BadInput(`FILE must be given. ${VERIFY_USAGE}`);
  if (extra !== undefined) {
    throw new BadInput(`Only one FILE can be checked at a time; "${extra}" is one too many.`);
  }
  const listed = await Promise.all((values['trust-file'] ?? []).map(readTrustFile));
  const given = (values.trust ?? []).map((did) => readSigner(did, '--trust'));
  return {
    file,
    trusted: [...new Set([...given, ...listed.flat()])],
    at: readMoment(values.at, now),
    askedAt: values.at === undefined ? null : readMoment(values.at, now),
    form: values.json === true ? 'json' : 'text',
  };
}
