import type { MadePack } from './make-pack.ts';

export const PACK_FILES = ['pack.pdf', 'pack.zip'] as const;
export type PackFileName = (typeof PACK_FILES)[number];

export const isPackFile = (name: string | undefined): name is PackFileName =>
  PACK_FILES.some((one) => one === name);

/** One of the two files of a pack as a download, named after the day it is about. */
export function replyFile(name: PackFileName, { content, pdf, zip }: MadePack): Response {
  const isPdf = name === 'pack.pdf';
  const file = `pack-${content.asOf}.${isPdf ? 'pdf' : 'zip'}`;
  return new Response(new Uint8Array(isPdf ? pdf : zip), {
    headers: {
      'content-type': isPdf ? 'application/pdf' : 'application/zip',
      'content-disposition': `attachment; filename="${file}"`,
      'cache-control': 'no-store',
      'x-robots-tag': 'noindex',
    },
  });
}
