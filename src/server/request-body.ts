import type { IncomingMessage } from 'node:http';
import { LARGEST_PHOTO } from '../records/check/index.ts';

/** Largest body taken, bytes: a signed practical sheet is some 20 kB. */
export const LARGEST_BODY = 1_048_576;

/** A photo is held to its own size from the first byte on. */
const largestFor = (url: string | undefined): number =>
  url?.startsWith('/api/photos/') === true ? LARGEST_PHOTO : LARGEST_BODY;

/** Reads the whole body before a page sees it, or says why not as an HTTP status. */
export async function readBody(
  request: IncomingMessage,
): Promise<{ ok: true; body: Buffer } | { ok: false; status: 400 | 413 | 415 }> {
  // nothing packed is taken, so that a few bytes cannot become many here
  const coding = request.headers['content-encoding'] ?? 'identity';
  if (coding.trim().toLowerCase() !== 'identity') return { ok: false, status: 415 };
  const largest = largestFor(request.url);
  if (Number(request.headers['content-length'] ?? 0) > largest) {
    return { ok: false, status: 413 };
  }
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of request) {
      length += chunk.length;
      if (length > largest) return { ok: false, status: 413 };
      chunks.push(chunk);
    }
  } catch {
    return { ok: false, status: 400 };
  }
  return { ok: true, body: Buffer.concat(chunks) };
}
