import type { Site } from '../../accounts/index.ts';
import { describeFile, MANIFEST_PATH, signManifest, utf8, writeZip } from '../../records/index.ts';
import { sayIn } from '../../words/say.ts';
import type { PackContent } from './content.ts';
import { gatherPack, type PackRequest, type Progress } from './gather.ts';
import { writePdf } from './pdf/write-pdf.ts';
import { filesOf } from './zip-files.ts';

export type MadePack = {
  readonly id: string;
  readonly content: PackContent;
  readonly pdf: Uint8Array;
  readonly zip: Uint8Array;
};

/** How often a pack is begun anew because the log grew while it was made. */
const TRIES = 3;

/** Gathers until the log stands still from the first record read to the last, so that one checkpoint covers all. */
async function gatherStill(
  request: PackRequest,
  site: Site,
  progress: Progress,
): Promise<PackContent> {
  for (let left = TRIES; ; left--) {
    const before = await site.store.checkpoint();
    const content = await gatherPack(request, site, progress);
    if (content.checkpoint === before || left === 1) return content;
  }
}

/**
 * Both files of a pack. The same request, made at the same instant of the same log, gives the same bytes.
 * @param verifier the one file that checks proofs alone, with the key of the site suggested in it
 */
export async function makePack(
  request: PackRequest,
  site: Site,
  verifier: string,
  progress: Progress = () => {},
): Promise<MadePack> {
  const content = await gatherStill(request, site, progress);
  const { asOf, choice, log, made, organisation } = content;
  const say = sayIn(choice.language);
  const pdf = await writePdf(content, say);
  const files = filesOf(content, pdf, verifier, say);
  const manifest = await signManifest(
    {
      made,
      asOf,
      organisation,
      language: choice.language,
      paper: choice.paper,
      scope: { people: [...choice.people], bench: choice.bench },
      log,
      files: [...files].map(([path, bytes]) => describeFile(path, bytes)),
    },
    site.siteKey,
  );
  files.set(MANIFEST_PATH, utf8(`${JSON.stringify(manifest, null, 1)}\n`));
  return { id: manifest.id, content, pdf, zip: writeZip(files, made.slice(0, 10)) };
}
