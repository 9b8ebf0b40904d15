import {
  AUTHORISATION_PROOF_FORMAT,
  PROOF_FORMAT,
  publicKeyOfDid,
  valueAt,
} from '../../../records/check/index.ts';

/** What somebody typed, dropped or pasted. */
export type Typed = {
  /** the proof file's text */
  readonly proof: string;
  /** signers, one a line; what follows a # is passed over */
  readonly signers: string;
  /** a day, or empty for now */
  readonly day: string;
};

/** The question to put to the check, or what is wrong with what was typed: a key of the sheet. */
export type Question =
  | {
      readonly ok: true;
      readonly file: unknown;
      readonly trusted: readonly string[];
      readonly at: string;
    }
  | {
      readonly ok: false;
      readonly field: keyof Typed;
      readonly problem: Problem;
      readonly line: number;
    };
export type Problem = 'empty' | 'too-long' | 'not-json' | 'not-proof' | 'not-signer' | 'not-day';

/** Characters; the same bound as the command has in bytes. */
const LARGEST_PROOF = 4_000_000;
const FORMATS: readonly unknown[] = [PROOF_FORMAT, AUTHORISATION_PROOF_FORMAT];

const no = (field: keyof Typed, problem: Problem, line = 0): Question => ({
  ok: false,
  field,
  problem,
  line,
});

function parse(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return undefined;
  }
}

function readSigners(text: string): { dids: string[]; bad: number | null } {
  const lines = text.split(/\r?\n/).map((line) => line.replace(/#.*$/, '').trim());
  const bad = lines.findIndex((line) => line !== '' && publicKeyOfDid(line) === null);
  return {
    dids: [...new Set(lines.filter((line) => line !== ''))],
    bad: bad === -1 ? null : bad + 1,
  };
}

/** Reads the question as `npm run verify` would. Never throws. */
export function readQuestion({ day, proof, signers }: Typed, now: Date): Question {
  if (proof.trim() === '') return no('proof', 'empty');
  if (proof.length > LARGEST_PROOF) return no('proof', 'too-long');
  const file = parse(proof);
  if (file === undefined) return no('proof', 'not-json');
  if (!FORMATS.includes(valueAt(file, 'format'))) return no('proof', 'not-proof');
  const { bad, dids } = readSigners(signers);
  if (bad !== null) return no('signers', 'not-signer', bad);
  if (day === '') return { ok: true, file, trusted: dids, at: now.toISOString() };
  const noon = `${day}T12:00:00.000Z`;
  const isDay = /^\d{4}-\d\d-\d\d$/.test(day) && Number.isFinite(Date.parse(noon));
  return isDay ? { ok: true, file, trusted: dids, at: noon } : no('day', 'not-day');
}
