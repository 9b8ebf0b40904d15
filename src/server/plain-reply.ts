import type { IncomingMessage, ServerResponse } from 'node:http';
import german from '../../content/messages/de/plain-reply.json' with { type: 'json' };
import english from '../../content/messages/en/plain-reply.json' with { type: 'json' };
import { runningRequest } from '../logging/index.ts';
import { fillPlaces, isLanguage, type Language, languageOfPath, pathIn } from '../words/index.ts';

/** What this server says itself, when no page of the site answers: these sheets alone, so that it starts quickly. */
const SHEETS: Readonly<Record<Language, Readonly<Record<string, string>>>> = {
  en: english,
  de: german,
};

/** One sentence for a status. */
function sentenceFor(status: number, language: Language): string {
  const sheet = SHEETS[language];
  return sheet[status] ?? (status >= 500 ? sheet['500'] : sheet['400']) ?? '';
}

const isApi = (path: string): boolean => path === '/api' || path.startsWith('/api/');

/** The language a request is in: of its address, or the one a panel asks an interface for. */
function languageOf({ url = '/', headers }: IncomingMessage): Language {
  const asked = String(headers['x-language'] ?? '');
  return isApi(url) && isLanguage(asked) ? asked : languageOfPath(url.split('?', 1)[0] ?? '/');
}

/** Scripts and the interface get JSON, a person gets a page. */
function wantsJson(request: IncomingMessage): boolean {
  if (isApi(request.url ?? '/')) return true;
  const accept = request.headers.accept ?? '';
  return accept.includes('application/json') && !accept.includes('text/html');
}

/** The body of an error reply and its type: `{error:{path,message}}` or a page of one sentence. */
export function describeStatus(
  request: IncomingMessage,
  status: number,
): { readonly type: string; readonly body: string } {
  const language = languageOf(request);
  const message = sentenceFor(status, language);
  if (wantsJson(request)) {
    return {
      type: 'application/json; charset=utf-8',
      body: JSON.stringify({ error: { path: '', message } }),
    };
  }
  const running = status >= 500 ? runningRequest() : null;
  // so that whoever saw it can say which line of the log it is
  const quote =
    running === null ? '' : fillPlaces(SHEETS[language]['quote'] ?? '', { request: running.id });
  return {
    type: 'text/html; charset=utf-8',
    body: `<!doctype html>
<html lang="${language}">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${status} · Signed to Saw</title></head>
<body><main><h1>Signed to Saw</h1><p>${message}</p>${quote === '' ? '' : `<p>${quote}</p>`}<p><a href="${pathIn(language, '/')}">${SHEETS[language]['first']}</a></p></main></body>
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
