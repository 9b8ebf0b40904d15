import type { IncomingMessage, ServerResponse } from 'node:http';
import { log, makeRequestId, type RunningRequest } from '../logging/index.ts';
import { isRefusedSignIn, type SiteMetrics } from './metrics/site-metrics.ts';

/** What machines ask every few seconds: told only to whoever wants everything. */
const ASKED_BY_MACHINES = new Set(['/api/health', '/api/ready', '/metrics']);

/** Refused sign-ins are summed up over this time, ms: a line for each would be a stranger's way to fill a disk. */
const SUM_REFUSED_MS = 60_000;
let refused = 0;

function sumRefused(): void {
  refused += 1;
  if (refused > 1) return;
  setTimeout(() => {
    log('warn', 'sign-ins-refused', { count: refused });
    refused = 0;
  }, SUM_REFUSED_MS).unref();
}

/** Gives a request its number, and logs and counts it when its reply has gone, or cannot go any more. */
export function watchRequest(
  { method = 'GET' }: IncomingMessage,
  response: ServerResponse,
  metrics: SiteMetrics | undefined,
): RunningRequest {
  const running: RunningRequest = { id: makeRequestId(), method, route: null, group: null };
  const began = performance.now();
  metrics?.startRequest();
  response.once('close', () => {
    const ms = performance.now() - began;
    const route = running.route ?? '(none)';
    const status = response.statusCode;
    metrics?.observeRequest({ route: running.group ?? route, method, status }, ms / 1_000);
    if (isRefusedSignIn({ route, method, status })) sumRefused();
    const level = status >= 500 ? 'error' : ASKED_BY_MACHINES.has(route) ? 'debug' : 'info';
    log(level, 'request', {
      request: running.id,
      method,
      route,
      status,
      ms: Number(ms.toFixed(1)),
      ...(response.writableFinished ? {} : { cut: true }),
    });
  });
  return running;
}
