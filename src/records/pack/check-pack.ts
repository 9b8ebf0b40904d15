import {
  openCheckpoint,
  publicKeyOfDid,
  sha256,
  toBase64,
  toHex,
  type VerdictWord,
  type VerifyOptions,
  verifyProof,
} from '../check/index.ts';
import { ConsistencyFileSchema, holdsConsistency } from './consistency-file.ts';
import { holdsManifest, MANIFEST_PATH, type PackManifest, PackManifestSchema } from './manifest.ts';
import type { Unpacked } from './zip.ts';

/** What was found of one file of a pack. */
export type FileVerdict = {
  readonly path: string;
  readonly verdict: VerdictWord;
  readonly sentence: string;
};

export type PackVerdict = {
  /** the worst word of any file */
  readonly verdict: VerdictWord;
  readonly sentence: string;
  /** the moment the question was about */
  readonly at: string;
  readonly files: readonly FileVerdict[];
  /** null when it does not hold, or its signer is not trusted */
  readonly manifest: PackManifest | null;
};

export type PackQuestion = {
  readonly trusted: readonly string[];
  /** the moment the question is about; null for the moment the pack was made */
  readonly at: string | null;
};

/** From the worst to the best. */
const WORST: readonly VerdictWord[] = [
  'altered',
  'not from a trusted signer',
  'withdrawn',
  'ended',
  'unknown as of a date',
  'genuine',
];

const SENTENCES: Readonly<Record<VerdictWord, string>> = {
  altered: 'Altered. Do not rely on this pack: the files named above are not as they were signed.',
  'not from a trusted signer':
    'Not from a trusted signer. The pack is whole, but its signer is not in your list.',
  withdrawn: 'Withdrawn. The pack is whole; at least one record in it no longer holds.',
  ended: 'Ended. The pack is whole; at least one record in it had run out by then.',
  'unknown as of a date':
    'Unknown as of that date. The pack is whole; whether every record in it held then cannot be told from it.',
  genuine: 'Genuine. Every file is as it was signed, and every proof holds.',
};

function parseFile(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

async function readManifest(files: Unpacked): Promise<PackManifest | string> {
  const bytes = files.get(MANIFEST_PATH);
  if (bytes === undefined) return 'is missing, so no file can be held against it.';
  const read = PackManifestSchema.safeParse(bytes === null ? undefined : parseFile(bytes));
  if (!read.success) return 'cannot be read as the manifest of a pack.';
  return (await holdsManifest(read.data))
    ? read.data
    : 'is not as its signer signed it: the signature does not hold.';
}

/** Why a file is not the one listed, or null. */
function faultOf(files: Unpacked, { path, sha256: digest, size }: PackManifest['files'][number]) {
  const bytes = files.get(path);
  if (bytes === undefined) return 'is missing.';
  if (bytes === null) return 'cannot be unpacked.';
  if (bytes.length !== size) return `must have ${size} bytes; it has ${bytes.length}.`;
  return toHex(sha256(bytes)) === digest ? null : 'does not have the SHA-256 in the manifest.';
}

async function judgeContent(
  path: string,
  bytes: Uint8Array,
  manifest: PackManifest,
  question: VerifyOptions,
): Promise<Omit<FileVerdict, 'path'>> {
  const key = publicKeyOfDid(manifest.issuer);
  const altered = (sentence: string) => ({ verdict: 'altered', sentence }) as const;
  if (path.startsWith('proofs/')) {
    const { verdict, sentence } = await verifyProof(parseFile(bytes), question);
    return { verdict, sentence };
  }
  if (path === 'checkpoints/newest.txt' && key !== null) {
    const opened = await openCheckpoint(new TextDecoder().decode(bytes), [key]);
    const { log } = manifest;
    const isSame =
      opened.ok &&
      opened.checkpoint.origin === log.origin &&
      opened.checkpoint.size === log.size &&
      toBase64(opened.checkpoint.root) === log.root;
    if (!isSame) return altered('is not the signed checkpoint that the manifest names.');
  }
  if (path === 'checkpoints/consistency.json' && key !== null) {
    const read = ConsistencyFileSchema.safeParse(parseFile(bytes));
    if (!read.success || !(await holdsConsistency(read.data, key))) {
      return altered('does not show that the log went on from the earlier checkpoint.');
    }
    return {
      verdict: 'genuine',
      sentence: 'The log goes on, unchanged, from the earlier checkpoint.',
    };
  }
  return { verdict: 'genuine', sentence: 'As listed in the signed manifest.' };
}

const worstOf = (files: readonly FileVerdict[]): VerdictWord =>
  WORST.find((word) => files.some(({ verdict }) => verdict === word)) ?? 'genuine';

/**
 * Checks a whole pack without the site: the signature of the manifest, every digest, every proof, the
 * checkpoint and the consistency proof. Only the signers given are trusted, never the one named in the pack.
 *
 * @param files what the zip holds; null for a file that cannot be unpacked
 * @throws RangeError when `at` is not a moment or `trusted` holds something that is not a did:key
 */
export async function checkPack(
  files: Unpacked,
  { at, trusted }: PackQuestion,
): Promise<PackVerdict> {
  const manifest = await readManifest(files);
  if (typeof manifest === 'string') {
    const rest = [...files.keys()].filter((path) => path !== MANIFEST_PATH);
    const found: FileVerdict[] = [
      { path: MANIFEST_PATH, verdict: 'altered', sentence: manifest },
      ...rest.map((path) => ({
        path,
        verdict: 'unknown as of a date' as const,
        sentence: 'Nothing can be told of it, because the manifest does not hold.',
      })),
    ];
    const sentence = SENTENCES.altered;
    return { verdict: 'altered', sentence, at: at ?? '', files: found, manifest: null };
  }
  const question = { trusted, at: at ?? manifest.made };
  const isTrusted = trusted.includes(manifest.issuer);
  const stranger = {
    verdict: 'not from a trusted signer',
    sentence: `As listed in the manifest, whose signer ${manifest.issuer} is not in your list.`,
  } as const;
  const found: FileVerdict[] = [
    {
      path: MANIFEST_PATH,
      ...(isTrusted ? { verdict: 'genuine', sentence: `Signed by ${manifest.issuer}.` } : stranger),
    },
  ];
  for (const listed of manifest.files) {
    const { path } = listed;
    const fault = faultOf(files, listed);
    const bytes = files.get(path);
    if (fault !== null || bytes == null) {
      found.push({ path, verdict: 'altered', sentence: fault ?? 'is missing.' });
    } else {
      const judged = await judgeContent(path, bytes, manifest, question);
      const isHeld = isTrusted || judged.verdict !== 'genuine';
      found.push({ path, ...(isHeld ? judged : stranger) });
    }
  }
  const listed = new Set([MANIFEST_PATH, ...manifest.files.map(({ path }) => path)]);
  for (const path of files.keys()) {
    if (listed.has(path)) continue;
    found.push({ path, verdict: 'altered', sentence: 'is not in the manifest: it was put in.' });
  }
  const verdict = worstOf(found);
  return {
    verdict,
    sentence: SENTENCES[verdict],
    at: question.at,
    files: found,
    manifest: isTrusted ? manifest : null,
  };
}
