import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  type AuditReport,
  auditLog,
  publicKeyOfDid,
  readNoteCheckpoint,
} from '../records/index.ts';
import { countPassed } from '../store/backup/index.ts';
import { openSiteKey, openStore } from '../store/index.ts';
import { makeProgressLine } from './progress-line.ts';
import { BadInput, locate, printable, readText, runCommand } from './read-input.ts';
import { readOptions } from './read-options.ts';
import { readSigner } from './verify-arguments.ts';

/**
 * Reads the whole log of a store and says whether it is the one its checkpoints sum up. Exit code
 * 0: whole; 1: not; 2: bad input, with one sentence on standard error.
 */

const USAGE =
  'Usage: npm run --silent audit -- [--data FOLDER] [--checkpoint FILE]... [--trust did:key:...]... [--hashes] [--json]';

const WHOLE = 0;
const BROKEN = 1;
const LARGEST_CHECKPOINT = 65_536;

function readWords(words: readonly string[]) {
  return readOptions(
    {
      args: [...words],
      options: {
        data: { type: 'string' },
        checkpoint: { type: 'string', multiple: true },
        trust: { type: 'string', multiple: true },
        hashes: { type: 'boolean' },
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    },
    USAGE,
  ).values;
}

function writeReport(report: AuditReport, keptElsewhere: number): string {
  const { checkpoints, firstBad, ok, root, size } = report;
  const kept =
    keptElsewhere > 0
      ? `Checked against ${keptElsewhere} checkpoint${keptElsewhere === 1 ? '' : 's'} kept elsewhere and the newest of the log itself.`
      : 'Checked only against the newest checkpoint of the log itself, which whoever holds the log and its key could have rewritten. Give checkpoints kept elsewhere with --checkpoint FILE.';
  return [
    `${size} events, root ${root}`,
    ...checkpoints.map((line) => `  ${line.ok ? 'ok    ' : 'FAILED'} ${line.sentence}`),
    firstBad === null
      ? 'No event is wrong by itself.'
      : `First bad event: number ${firstBad.index}. ${firstBad.sentence}`,
    ok ? 'The log is whole.' : 'The log is NOT whole.',
    kept,
  ]
    .map(printable)
    .join('\n');
}

async function audit(words: readonly string[]): Promise<number> {
  const asked = readWords(words);
  if (asked.help === true) {
    process.stdout.write(`${USAGE}\n`);
    return WHOLE;
  }
  const folder = asked.data === undefined ? process.env['DATA_DIR'] || 'data' : locate(asked.data);
  const file = join(folder, 'store.sqlite');
  // a folder that is named is meant, whatever the environment says
  const url = asked.data === undefined ? process.env['DATABASE_URL'] || undefined : undefined;
  if (url === undefined && !existsSync(file))
    throw new BadInput(`${folder} holds no store; name its folder with --data.`);
  const signers = (asked.trust ?? []).map((did) => readSigner(did, '--trust'));
  const kept = await Promise.all(
    (asked.checkpoint ?? []).map((path) => readText(path, LARGEST_CHECKPOINT)),
  );
  const siteKey = await openSiteKey(join(folder, 'site-key.json'), true);
  const store = await openStore(url === undefined ? { file } : { url }, siteKey);
  try {
    const newest = await store.checkpoint();
    const whole = readNoteCheckpoint(newest)?.size ?? 0;
    const progress = makeProgressLine();
    const count = (done: number) => progress.tell({ step: 'audit', done, whole });
    const report = await auditLog(countPassed(store.readChunks(), count), {
      checkpoints: [...kept, newest],
      publicKeys: [siteKey.publicKey, ...signers.map(publicKeyOfDid).filter((key) => key !== null)],
      depth: asked.hashes === true ? 'hashes' : 'events',
    }).finally(progress.clear);
    process.stdout.write(
      `${asked.json === true ? JSON.stringify(report) : writeReport(report, kept.length)}\n`,
    );
    return report.ok ? WHOLE : BROKEN;
  } finally {
    await store.close();
  }
}

await runCommand(audit, 'The log cannot be audited');
