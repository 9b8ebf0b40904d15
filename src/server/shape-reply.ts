import { once } from 'node:events';
import {
  type IncomingMessage,
  type OutgoingHttpHeaders,
  type ServerResponse,
  STATUS_CODES,
} from 'node:http';
import { createBrotliCompress, createGzip, constants as zlib } from 'node:zlib';
import { acceptedCoding, isText } from './content-coding.ts';
import { describeStatus } from './plain-reply.ts';

/** A short reply is not worth compressing, bytes. */
const SMALLEST_COMPRESSED = 1_024;

/** Waits until more can be written without being kept in memory for a slow reader. */
export type RoomToSend = () => Promise<void>;

type Encoder = ReturnType<typeof createGzip> | ReturnType<typeof createBrotliCompress>;
type Chunk = string | Uint8Array;

function makeEncoder(coding: 'br' | 'gzip'): Encoder {
  return coding === 'br'
    ? createBrotliCompress({ params: { [zlib.BROTLI_PARAM_QUALITY]: 4 } })
    : createGzip({ level: 6 });
}

/** Sets what writeHead was given; Node allows the headers as its second or third argument. */
function takeHeaders(response: ServerResponse, given: readonly unknown[]): void {
  const headers = given.find((one) => typeof one === 'object' && one !== null);
  for (const [name, value] of Object.entries((headers ?? {}) as OutgoingHttpHeaders)) {
    if (value !== undefined) response.setHeader(name, value);
  }
}

/**
 * Stands between whoever answers and the wire, so that no reply can leave without the security headers,
 * no error without its sentence, and text leaves compressed. The head is held back until the first byte
 * of the body is known. Returns what a long reply waits for before each part: it resolves once what was written
 * before is on its way, or nobody is there to take it.
 */
export function shapeReply(
  request: IncomingMessage,
  response: ServerResponse,
  securityHeaders: Readonly<Record<string, string>>,
): RoomToSend {
  const wire = {
    writeHead: response.writeHead.bind(response),
    write: response.write.bind(response) as (chunk: Chunk) => boolean,
    end: response.end.bind(response) as (chunk?: Chunk, done?: () => void) => ServerResponse,
  };
  let encoder: Encoder | null = null;
  let sent = false;
  let replaced = false;

  /** An error that says nothing about its own type has no page behind it: it gets the plain sentence. */
  function replaceBareError(): string | null {
    if (response.statusCode < 400 || response.hasHeader('content-type')) return null;
    const { type, body } = describeStatus(request, response.statusCode);
    response.setHeader('content-type', type);
    response.removeHeader('content-length');
    return body;
  }

  function chooseEncoder(length: number | null): Encoder | null {
    const type = String(response.getHeader('content-type') ?? '');
    const bodiless = request.method === 'HEAD' || [204, 304].includes(response.statusCode);
    if (bodiless || response.hasHeader('content-encoding') || !isText(type)) return null;
    response.appendHeader('vary', 'accept-encoding');
    if (length !== null && length < SMALLEST_COMPRESSED) return null;
    const coding = acceptedCoding(request.headers['accept-encoding']);
    if (coding === null) return null;
    response.setHeader('content-encoding', coding);
    response.removeHeader('content-length');
    return makeEncoder(coding);
  }

  /** `length`: bytes of the whole body when it is known already. */
  function sendHead(length: number | null): void {
    sent = true;
    // A page that changes its status keeps the "OK" of the one before.
    response.statusMessage = STATUS_CODES[response.statusCode] ?? '';
    const isSecret = response.getHeader('referrer-policy') === 'no-referrer';
    for (const [name, value] of Object.entries(securityHeaders)) response.setHeader(name, value);
    // a page whose address is a secret may tell less of itself than others, never more
    if (isSecret) response.setHeader('referrer-policy', 'no-referrer');
    // Every page of this site is UTF-8; a page that only says text/html would leave that to a guess.
    if (response.getHeader('content-type') === 'text/html') {
      response.setHeader('content-type', 'text/html; charset=utf-8');
    }
    if (!response.hasHeader('cache-control')) response.setHeader('cache-control', 'no-store');
    encoder = chooseEncoder(length);
    encoder?.on('data', (chunk: Buffer) => {
      if (!wire.write(chunk)) encoder?.pause();
    });
    response.on('drain', () => encoder?.resume());
    encoder?.on('end', () => wire.end());
    response.on('close', () => encoder?.destroy());
    wire.writeHead(response.statusCode);
  }

  response.writeHead = ((status: number, ...given: unknown[]) => {
    if (sent) return response;
    response.statusCode = status;
    takeHeaders(response, given);
    return response;
  }) as typeof response.writeHead;

  response.write = ((chunk: Chunk, ...rest: unknown[]) => {
    if (!sent) {
      const instead = replaceBareError();
      replaced = instead !== null;
      sendHead(null);
      if (instead !== null) wire.write(instead);
    }
    const done = rest.find((one) => typeof one === 'function') as (() => void) | undefined;
    if (done !== undefined) queueMicrotask(done);
    if (replaced) return true;
    return encoder === null ? wire.write(chunk) : encoder.write(chunk);
  }) as typeof response.write;

  response.end = ((...given: unknown[]) => {
    const done = given.find((one) => typeof one === 'function') as (() => void) | undefined;
    let chunk = given.find((one) => typeof one === 'string' || one instanceof Uint8Array) as
      | Chunk
      | undefined;
    if (done !== undefined) response.once('finish', done);
    if (!sent) {
      chunk = replaceBareError() ?? chunk;
      if (request.method === 'HEAD') chunk = undefined;
      sendHead(chunk === undefined ? 0 : Buffer.byteLength(chunk));
    } else if (replaced) {
      chunk = undefined;
    }
    if (encoder !== null) encoder.end(chunk);
    else wire.end(chunk);
    return response;
  }) as typeof response.end;

  return async () => {
    const sink = encoder ?? response;
    if (response.destroyed || !sink.writableNeedDrain) return;
    const over = new AbortController();
    const { signal } = over;
    await Promise.race([once(sink, 'drain', { signal }), once(response, 'close', { signal })]);
    over.abort();
  };
}
