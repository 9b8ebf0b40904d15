import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { extname, join, relative, sep } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, gzip, constants as zlib } from 'node:zlib';
import { acceptedCoding, isText } from './content-coding.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.xml': 'application/xml; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.avif': 'image/avif',
  '.ico': 'image/x-icon',
  '.pdf': 'application/pdf',
};

/** A compressed copy is only worth sending from about one network packet up, bytes. */
const SMALLEST_COMPRESSED = 1_024;

type StaticFile = {
  readonly body: Buffer;
  readonly type: string;
  readonly etag: string;
  readonly cacheControl: string;
  /** path of the page it is; null for a part of a page */
  readonly page: string | null;
  readonly coded: { br?: Promise<Buffer>; gzip?: Promise<Buffer> };
};

/** Built files by the path that asks for them. Only what was found at the start can ever be served. */
export type StaticFiles = ReadonlyMap<string, StaticFile>;

/** Reads every file of the built site into memory, a few megabytes, once. */
export function readStaticFiles(folder: string): StaticFiles {
  const files = new Map<string, StaticFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = join(entry.parentPath, entry.name);
    const path = `/${relative(folder, file).split(sep).join('/')}`;
    const body = readFileSync(file);
    const found: StaticFile = {
      body,
      type: TYPES[extname(path)] ?? 'application/octet-stream',
      etag: `W/"${createHash('sha256').update(body).digest('base64url').slice(0, 22)}"`,
      // Astro puts a hash of the content into these names, so they never change.
      cacheControl: path.startsWith('/_astro/')
        ? 'public, max-age=31536000, immutable'
        : 'public, no-cache',
      page: path.endsWith('.html') ? path.replace(/index\.html$/, '') : null,
      coded: {},
    };
    files.set(path, found);
    if (path.endsWith('/index.html')) {
      const page = path.slice(0, -'index.html'.length);
      files.set(page, found);
      if (page !== '/') files.set(page.slice(0, -1), found);
    }
  }
  return files;
}

const compressBrotli = promisify(brotliCompress);
const compressGzip = promisify(gzip);

async function codedBody(file: StaticFile, coding: 'br' | 'gzip'): Promise<Buffer> {
  if (coding === 'br') {
    file.coded.br ??= compressBrotli(file.body, {
      params: { [zlib.BROTLI_PARAM_QUALITY]: 9, [zlib.BROTLI_PARAM_SIZE_HINT]: file.body.length },
    });
    return file.coded.br;
  }
  file.coded.gzip ??= compressGzip(file.body, { level: 9 });
  return file.coded.gzip;
}

/** The file a request asks for, if the built site has one. */
export function findStaticFile(files: StaticFiles, url: string): StaticFile | undefined {
  const path = url.split(/[?#]/, 1)[0] ?? '/';
  try {
    return files.get(decodeURIComponent(path));
  } catch {
    return undefined;
  }
}

/** Answers with a built file: 304 when the browser has it already, compressed when it can read that. */
export async function sendStaticFile(
  request: IncomingMessage,
  response: ServerResponse,
  file: StaticFile,
  status = 200,
): Promise<void> {
  const headers: Record<string, string | number> = {
    'content-type': file.type,
    'cache-control': status === 200 ? file.cacheControl : 'no-store',
  };
  const compressible = isText(file.type) && file.body.length >= SMALLEST_COMPRESSED;
  if (compressible) headers['vary'] = 'accept-encoding';
  if (status === 200) headers['etag'] = file.etag;
  if (status === 200 && request.headers['if-none-match'] === file.etag) {
    response.writeHead(304, headers).end();
    return;
  }
  const coding = compressible ? acceptedCoding(request.headers['accept-encoding']) : null;
  const body = coding === null ? file.body : await codedBody(file, coding);
  if (coding !== null) headers['content-encoding'] = coding;
  headers['content-length'] = body.length;
  response.writeHead(status, headers).end(request.method === 'HEAD' ? undefined : body);
}
