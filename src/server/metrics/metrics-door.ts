import { createHash, timingSafeEqual } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { isOwnHost } from '../same-origin.ts';
import { OPEN_METRICS_TYPE } from './open-metrics.ts';
import type { SiteMetrics } from './site-metrics.ts';

const sha256 = (text: string): Buffer => createHash('sha256').update(text).digest();

/** Whether a request shows the token. The digests are compared, in a time that tells nothing. */
export function showsToken({ headers }: IncomingMessage, token: string): boolean {
  const [, shown = ''] = /^Bearer ([\w.~+/=-]+)$/i.exec(headers.authorization ?? '') ?? [];
  return timingSafeEqual(sha256(shown), sha256(token));
}

export async function sendMetrics(metrics: SiteMetrics, response: ServerResponse): Promise<void> {
  const text = await metrics.write();
  response.writeHead(200, { 'content-type': OPEN_METRICS_TYPE, 'cache-control': 'no-store' });
  response.end(text);
}

/** Gives the metrics to whoever is on this machine, on a port of its own. Rejects when the port is taken. */
export async function openMetricsDoor(
  metrics: SiteMetrics,
  port: number,
): Promise<{ readonly close: () => Promise<void> }> {
  const server = createServer((request, response) => {
    const asked = request.method === 'GET' && request.url === '/metrics';
    // a page elsewhere whose name was pointed at this machine must not read them through a browser
    if (asked && isOwnHost(request.headers.host, null)) {
      sendMetrics(metrics, response).catch(() => response.destroy());
    } else {
      response.writeHead(404, { 'content-type': 'text/plain' }).end('Only GET /metrics is here.\n');
    }
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
  return {
    close: () =>
      new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
