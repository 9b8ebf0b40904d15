import { Agent, request } from 'node:http';

export type Answer = { readonly status: number; readonly body: Buffer; readonly ms: number };

/** A browser without a picture: keeps its connections and its cookie. */
export type Client = {
  readonly send: (method: 'GET' | 'POST', path: string, body?: Sent) => Promise<Answer>;
  readonly close: () => void;
};

type Sent = { readonly type: string; readonly text: string };
export const json = (value: unknown): Sent => ({
  type: 'application/json',
  text: JSON.stringify(value),
});
const form = (fields: Record<string, string>): Sent => ({
  type: 'application/x-www-form-urlencoded',
  text: new URLSearchParams(fields).toString(),
});

const agentOf = (sockets: number): Agent => new Agent({ keepAlive: true, maxSockets: sockets });

function sendBy(
  agent: Agent,
  url: URL,
  { method, path, cookie, body }: { method: string; path: string; cookie: string; body?: Sent },
): Promise<Answer & { readonly cookie: string | null }> {
  return new Promise((resolve, reject) => {
    const began = performance.now();
    const headers: Record<string, string> = { 'accept-encoding': 'gzip' };
    if (cookie !== '') headers['cookie'] = cookie;
    if (body !== undefined) {
      headers['content-type'] = body.type;
      headers['content-length'] = String(Buffer.byteLength(body.text));
      headers['origin'] = url.origin;
    }
    const asked = request(
      { agent, host: url.hostname, port: url.port, method, path, headers },
      (reply) => {
        const chunks: Buffer[] = [];
        reply.on('data', (chunk: Buffer) => chunks.push(chunk));
        reply.on('error', reject);
        reply.on('end', () =>
          resolve({
            status: reply.statusCode ?? 0,
            body: Buffer.concat(chunks),
            ms: performance.now() - began,
            cookie: reply.headers['set-cookie']?.[0]?.split(';')[0] ?? null,
          }),
        );
      },
    );
    asked.on('error', (error: NodeJS.ErrnoException) => {
      // the server closed a connection it had kept open just as it was used again: a browser asks anew, too
      if (asked.reusedSocket && error.code === 'ECONNRESET') {
        sendBy(agent, url, { method, path, cookie, ...(body && { body }) }).then(resolve, reject);
      } else reject(error);
    });
    asked.end(body?.text);
  });
}

/** Nobody in particular. */
export function visit(address: string, sockets = 1): Client {
  return clientOf(new URL(address), agentOf(sockets), '');
}

function clientOf(url: URL, agent: Agent, cookie: string): Client {
  return {
    send: (method, path, body) =>
      sendBy(agent, url, { method, path, cookie, ...(body && { body }) }),
    close: () => agent.destroy(),
  };
}

/** Somebody of the workshop, signed in through the page as they would. */
export async function signInAs(
  address: string,
  email: string,
  password: string,
  sockets = 1,
): Promise<Client> {
  const url = new URL(address);
  const agent = agentOf(sockets);
  const body = form({ email, password });
  const { status, cookie } = await sendBy(agent, url, {
    method: 'POST',
    path: '/sign-in',
    cookie: '',
    body,
  });
  if (status !== 303 || cookie === null) throw new Error(`${email} was not signed in: ${status}`);
  return clientOf(url, agent, cookie);
}

export const sorted = (figures: readonly number[]): number[] => [...figures].sort((a, b) => a - b);
/** The value below which `part`, 0 to 1, of the figures lie. */
export const quantile = (figures: readonly number[], part: number): number =>
  sorted(figures)[Math.min(figures.length - 1, Math.floor(figures.length * part))] ?? Number.NaN;
export const median = (figures: readonly number[]): number => quantile(figures, 0.5);
