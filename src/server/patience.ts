import type { Server, ServerOptions } from 'node:http';

/** How long a client is waited for, milliseconds. */
export type Patience = {
  /** for the head of a request, from its first byte */
  readonly headMs: number;
  /** for the whole of a request, body included: a photo over a poor radio link */
  readonly requestMs: number;
  /** for any byte either way: a client that takes its reply in no more */
  readonly silenceMs: number;
  /** how often it is looked whether somebody is late */
  readonly checkMs: number;
};

export const USUAL_PATIENCE: Patience = {
  headMs: 10_000,
  requestMs: 60_000,
  silenceMs: 60_000,
  checkMs: 5_000,
};

/** A slow client holds a socket and nothing else; these end it, so that sockets do not run out. */
export const patientOptions = ({ headMs, requestMs, checkMs }: Patience): ServerOptions => ({
  headersTimeout: headMs,
  requestTimeout: requestMs,
  connectionsCheckingInterval: checkMs,
});

/** Ends connections on which nothing moves, one that never sent a byte included. */
export function endSilence(server: Server, { silenceMs }: Patience): void {
  server.setTimeout(silenceMs, (socket) => socket.destroy());
}
