import type { LogLine } from './log.ts';

/** For programs: one line of JSON. */
export const asJson = (line: LogLine): string => JSON.stringify(line);

/** Parts of a page, which would drown the lines of a person at a terminal. */
export const FILE_ROUTE = '(file)';

/** For a person at a terminal: one line of words, null for what is of no use there. */
export function asText(line: LogLine): string | null {
  const clock = line.time.slice(11, 19);
  const { event, level, method, route, status, ms, request, error } = line;
  if (event === 'request') {
    if (route === FILE_ROUTE && (status ?? 0) < 400) return null;
    const number = (status ?? 0) >= 500 ? `  request ${request}` : '';
    return `${clock}  ${status} ${method} ${route}  ${ms} ms${line.cut ? '  cut short' : ''}${number}`;
  }
  if (error !== undefined) {
    const what = [error.kinds.join(', caused by '), error.code].filter(Boolean).join(', code ');
    const head = `${clock}  ${level}: ${what}${request === undefined ? '' : `  request ${request}`}`;
    return [head, ...error.at.map((place) => `            at ${place}`)].join('\n');
  }
  const { time: _time, level: _level, event: _event, ...rest } = line;
  const said = Object.entries(rest).map(([name, value]) =>
    typeof value === 'object' ? `${name} ${JSON.stringify(value)}` : `${name} ${value}`,
  );
  return `${clock}  ${event}${said.length > 0 ? `: ${said.join(', ')}` : ''}`;
}
