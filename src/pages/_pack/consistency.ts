import type { Site } from '../../accounts/index.ts';
import { CONSISTENCY_FORMAT, openCheckpoint, utf8 } from '../../records/index.ts';
import { asNote, compareCheckpoint } from '../_desk/compare-checkpoint.ts';
import type { PackContent } from './content.ts';

/** Why an earlier checkpoint cannot go into a pack: the end of a key of the sheet `pack`; null for none or a good one. */
export async function faultOfEarlier(earlier: string, site: Site): Promise<string | null> {
  if (earlier.trim() === '') return null;
  const found = await compareCheckpoint(earlier, site);
  if (found.state === 'refused') {
    return found.why === 'unknown-signer' || found.why === 'another-log'
      ? 'bad.earlier.not-ours'
      : 'bad.earlier.malformed';
  }
  if (found.state === 'goes-on' || found.state === 'same') return null;
  return found.state === 'nothing' ? 'bad.earlier.nothing' : 'bad.earlier.broken';
}

/** The file that shows the log going on from an earlier checkpoint; null where none was given. */
export async function readConsistency(
  earlier: string,
  newest: string,
  site: Site,
): Promise<PackContent['consistency']> {
  if (earlier.trim() === '') return null;
  const found = await compareCheckpoint(earlier, site);
  if (found.state !== 'goes-on' && found.state !== 'same') return null;
  const note = asNote(earlier);
  const opened = await openCheckpoint(note, [site.siteKey.publicKey]);
  const file = { format: CONSISTENCY_FORMAT, earlier: note, newest, path: found.path };
  return {
    earlier: note,
    size: opened.ok ? opened.checkpoint.size : found.kept,
    bytes: utf8(`${JSON.stringify(file, null, 1)}\n`),
  };
}
