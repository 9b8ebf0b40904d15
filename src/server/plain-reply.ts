import type { IncomingMessage, ServerResponse } from 'node:http';

/** What this server says itself, when no page of the site answers. One sentence each. */
const SENTENCES: Readonly<Record<number, string>> = {
  400: 'The request cannot be read.',
  403: 'This request did not come from a page of this site, so nothing was changed.',
  404: 'There is nothing at this address.',
  405: 'This address only shows something; it takes no input.',
  408: 'The request took too long to arrive, so nothing was changed.',
  413: 'The request is larger than 1 MB, so nothing was changed.',
  421: 'This site does not answer to that host name; set SITE_URL to the address people use.',
  500: 'Something went wrong on our side; nothing you sent was recorded.',
  503: 'The site is stopping; try again in a moment.',
};

export function sentenceFor(status: number): string {
  return SENTENCES[status] ?? (status >= 500 ? SENTENCES[500] : SENTENCES[400]) ?? '';
}

/** Scripts and the interface get JSON, a person gets a page. */
function wantsJson(request: IncomingMessage): boolean {
  const path = request.url ?? '/';
  if (path === '/api' || path.startsWith('/api/')) return true;
  const accept = request.headers.accept ?? '';
  return accept.includes('application/json') && !accept.includes('text/html');
}

/** The body of an error reply and its type: `{error:{path,message}}` or a page of one sentence. */
export function describeStatus(
  request: IncomingMessage,
  status: number,
): { readonly type: string; readonly body: string } {
  const message = sentenceFor(status);
  if (wantsJson(request)) {
    return {
      type: 'application/json; charset=utf-8',
      body: JSON.stringify({ error: { path: '', message } }),
    };
  }
  return {
    type: 'text/html; charset=utf-8',
    body: `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${status} · Signed to Saw</title></head>
<body><main><h1>Signed to Saw</h1><p>${message}</p><p><a href="/">To the first page</a></p></main></body>
</html>
`,
  };
}

/** Answers with the status and its one sentence. */
export function replyWithStatus(
  request: IncomingMessage,
  response: ServerResponse,
  status: number,
  headers: Readonly<Record<string, string>> = {},
): void {
  const { type, body } = describeStatus(request, status);
  response.writeHead(status, { 'content-type': type, 'cache-control': 'no-store', ...headers });
  response.end(request.method === 'HEAD' ? undefined : body);
}
