import {
  createServer,
  type IncomingMessage,
  type Server,
  type ServerResponse,
  STATUS_CODES,
} from 'node:http';
import type { AddressInfo } from 'node:net';
import { duringRequest, FILE_ROUTE, logError, logSecurity, noteRoute } from '../logging/index.ts';
import { asSomebody } from '../store/index.ts';
import { languageOfPath, pathIn } from '../words/index.ts';
import { sendMetrics, showsToken } from './metrics/metrics-door.ts';
import type { SiteMetrics } from './metrics/site-metrics.ts';
import { endSilence, type Patience, patientOptions, USUAL_PATIENCE } from './patience.ts';
import { replyWithStatus } from './plain-reply.ts';
import type { Readiness } from './readiness.ts';
import { readBody } from './request-body.ts';
import { isOwnHost, isSameOrigin } from './same-origin.ts';
import { securityHeaders } from './security-headers.ts';
import type { Settings } from './settings.ts';
import { type RoomToSend, shapeReply } from './shape-reply.ts';
import { findStaticFile, type StaticFiles, sendStaticFile } from './static-files.ts';
import { watchRequest } from './watch-request.ts';

/** The built site's request handler, as its adapter makes it. `next` is called when no page matches. */
export type PageHandler = (
  request: IncomingMessage,
  response: ServerResponse,
  next: (error?: unknown) => void,
  locals: { readonly roomToSend: RoomToSend },
) => Promise<void> | void;

export type ServerParts = {
  readonly settings: Settings;
  readonly pages: PageHandler;
  readonly files: StaticFiles;
  /** how long slow clients are waited for; USUAL_PATIENCE when not given */
  readonly patience?: Patience;
  readonly watch?: Watch;
};

/** How the running site is watched over. */
export type Watch = {
  readonly metrics: SiteMetrics;
  /** who shows it is given the metrics; null: nobody is */
  readonly metricsToken: string | null;
  readonly askReady: (isStopping: boolean) => Promise<Readiness>;
};

export type RunningServer = {
  /** Where people reach it: SITE_URL when that is set. */
  readonly address: URL;
  /** The port it listens on, also when it was asked to pick one. */
  readonly port: number;
  /** Takes no new request, lets the running ones finish for up to `graceMs` milliseconds, then ends. */
  readonly stop: (graceMs?: number) => Promise<void>;
};

const READS = new Set(['GET', 'HEAD']);
/** What any address may say that it takes. */
const METHODS = [...READS, 'POST', 'PUT', 'DELETE'];
/** These end at the door: they would show what was sent, or make a tunnel. Every other is for its address to refuse. */
const SHUT = new Set(['TRACE', 'TRACK', 'CONNECT']);
/** Addresses of the framework's own, such as its picture maker: nothing of ours uses them, so they are shut. */
const isFrameworks = (url: string): boolean => /^\/+_/.test(decodeLoosely(url));

function decodeLoosely(url: string): string {
  try {
    return decodeURIComponent(url);
  } catch {
    return url;
  }
}

function sendJson(response: ServerResponse, status: number, value: unknown): void {
  const type = 'application/json; charset=utf-8';
  response.writeHead(status, { 'content-type': type, 'cache-control': 'no-store' });
  response.end(JSON.stringify(value));
}

/** What whoever watches over the site asks of the server itself. False: it asked for something else. */
async function answerWatch(
  { metrics, metricsToken, askReady }: Watch,
  request: IncomingMessage,
  response: ServerResponse,
  isStopping: boolean,
): Promise<boolean> {
  if (!READS.has(request.method ?? 'GET')) return false;
  if (request.url === '/api/ready') {
    noteRoute('/api/ready');
    const readiness = await askReady(isStopping);
    sendJson(response, readiness.ready ? 200 : 503, readiness);
    return true;
  }
  if (request.url !== '/metrics' || metricsToken === null) return false;
  noteRoute('/metrics');
  if (showsToken(request, metricsToken)) {
    await sendMetrics(metrics, response);
    return true;
  }
  logSecurity('token-refused');
  replyWithStatus(request, response, 401, { 'www-authenticate': 'Bearer' });
  return true;
}

async function answer(
  { settings, pages, files, watch }: ServerParts,
  request: IncomingMessage,
  response: ServerResponse,
  roomToSend: RoomToSend,
  isStopping: boolean,
): Promise<void> {
  const method = request.method ?? 'GET';
  if (SHUT.has(method)) {
    return replyWithStatus(request, response, 405, { allow: METHODS.join(', ') });
  }
  if (!isOwnHost(request.headers.host, settings.siteUrl)) {
    noteRoute('(another host)');
    logSecurity('another-host');
    return replyWithStatus(request, response, 421);
  }
  if (!isSameOrigin(method, request.headers, settings.siteUrl)) {
    noteRoute('(from elsewhere)');
    logSecurity('from-elsewhere');
    return replyWithStatus(request, response, 403);
  }
  const url = request.url ?? '/';
  if (!url.startsWith('/')) return replyWithStatus(request, response, 400);

  if (watch !== undefined && (await answerWatch(watch, request, response, isStopping))) return;

  const file = findStaticFile(files, url);
  if (file !== undefined) {
    if (file.page === null) noteRoute(FILE_ROUTE);
    else noteRoute(file.page, '(page)');
    if (READS.has(method)) return sendStaticFile(request, response, file);
    return replyWithStatus(request, response, 405, { allow: 'GET, HEAD' });
  }

  if (isFrameworks(url)) return replyWithStatus(request, response, 404);

  if (settings.siteUrl?.protocol === 'https:' && request.headers.host === settings.siteUrl.host) {
    // The proxy took the encryption off. The pages look here to learn that people came by https.
    Object.assign(request.socket, { encrypted: true });
  }
  if (!READS.has(method)) {
    const read = await readBody(request);
    if (!read.ok) return replyWithStatus(request, response, read.status, { connection: 'close' });
    // The adapter takes a body that was read before from here.
    Object.assign(request, { body: read.body });
  }
  const next = () => {
    const language = languageOfPath(url.split('?', 1)[0] ?? '/');
    const page = files.get(`${pathIn(language, '/404')}/index.html`) ?? files.get('/404.html');
    if (page === undefined || url.startsWith('/api/')) replyWithStatus(request, response, 404);
    else void sendStaticFile(request, response, page, 404);
  };
  await pages(request, response, next, { roomToSend });
}

/** What to say to bytes that are no whole request, by Node's own code for it. */
function statusLineOf(error: Error): string {
  const code = 'code' in error ? error.code : undefined;
  if (code === 'HPE_HEADER_OVERFLOW') return `431 ${STATUS_CODES[431]}`;
  return code === 'ERR_HTTP_REQUEST_TIMEOUT'
    ? `408 ${STATUS_CODES[408]}`
    : `400 ${STATUS_CODES[400]}`;
}

/** Starts to listen. Rejects with Node's own error when the port cannot be taken. */
export async function startServer(parts: ServerParts): Promise<RunningServer> {
  const headers = securityHeaders(parts.settings.siteUrl);
  const { patience = USUAL_PATIENCE, watch } = parts;
  let isStopping = false;
  const server = createServer(patientOptions(patience), (request, response) => {
    const running = watchRequest(request, response, watch?.metrics);
    // a connection that is kept would keep the server from ending
    if (isStopping) response.shouldKeepAlive = false;
    const during = (work: () => void) => duringRequest(running, () => asSomebody(work));
    during(() => {
      const room = shapeReply(request, response, { ...headers, 'x-request-id': running.id });
      answer(parts, request, response, room, isStopping).catch((error: unknown) => {
        logError(error);
        if (response.headersSent) response.destroy();
        else replyWithStatus(request, response, 500);
      });
    });
  });
  endSilence(server, patience);
  // A request that is not HTTP at all never reaches the handler above.
  server.on('clientError', (error, socket) => {
    logSecurity('not-http');
    if (!socket.writable) {
      socket.destroy();
      return;
    }
    const lines = Object.entries({ ...headers, connection: 'close', 'content-length': '0' });
    socket.end(
      `HTTP/1.1 ${statusLineOf(error)}\r\n${lines.map(([name, value]) => `${name}: ${value}\r\n`).join('')}\r\n`,
    );
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(parts.settings.port, parts.settings.host, () => {
      server.off('error', reject);
      resolve();
    });
  });
  const { port } = server.address() as AddressInfo;
  return {
    address: addressOf(port, parts.settings),
    port,
    stop(graceMs) {
      isStopping = true;
      return stopServer(server, graceMs);
    },
  };
}

function addressOf(port: number, { host, siteUrl }: Settings): URL {
  if (siteUrl !== null) return siteUrl;
  const everywhere = host === '0.0.0.0' || host === '::';
  const name = everywhere ? 'localhost' : host.includes(':') ? `[${host}]` : host;
  return new URL(`http://${name}:${port}`);
}

async function stopServer(server: Server, graceMs = 5_000): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  server.closeIdleConnections();
  const late = setTimeout(() => server.closeAllConnections(), graceMs);
  await closed;
  clearTimeout(late);
}
