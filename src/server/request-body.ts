import type { IncomingMessage } from 'node:http';

/** Largest body taken, bytes: a signed practical sheet is some 20 kB. */
export const LARGEST_BODY = 1_048_576;

/** Reads the whole body before a page sees it, or says why not as an HTTP status. */
export async function readBody(
  request: IncomingMessage,
): Promise<{ ok: true; body: Buffer } | { ok: false; status: 400 | 413 }> {
  if (Number(request.headers['content-length'] ?? 0) > LARGEST_BODY) {
    return { ok: false, status: 413 };
  }
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of request) {
      length += chunk.length;
      if (length > LARGEST_BODY) return { ok: false, status: 413 };
      chunks.push(chunk);
    }
  } catch {
    return { ok: false, status: 400 };
  }
  return { ok: true, body: Buffer.concat(chunks) };
}
