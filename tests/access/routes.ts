import { readFileSync } from 'node:fs';

/** A route of the built site. */
export type Route = {
  /** as the address is written in src/pages: `/people/[id]` */
  readonly pattern: string;
  readonly type: 'page' | 'endpoint';
  readonly isPrerendered: boolean;
  /** the methods the file itself answers; null for a page */
  readonly methods: readonly string[] | null;
};

type Made = {
  readonly route: string;
  readonly type: string;
  readonly prerender: boolean;
  readonly component: string;
};

function methodsOf(component: string): readonly string[] {
  const text = component.startsWith('src/') ? readFileSync(component, 'utf8') : '';
  return [...text.matchAll(/^export const ([A-Z]+)\b/gm)].map(([, method = '']) => method);
}

/** Every route the built server knows, read out of the server itself. */
export function builtRoutes(entry = 'dist/server/entry.mjs'): Route[] {
  const text = readFileSync(entry, 'utf8');
  const found = [...text.matchAll(/"routeData":\s*(\{.*?"_meta":\s*\{[^}]*\}\s*\})/gs)].map(
    ([, json = '']) => JSON.parse(json) as Made,
  );
  const routes = new Map(
    found.map(({ route, type, prerender, component }) => [
      route,
      {
        pattern: route,
        type: type === 'page' ? ('page' as const) : ('endpoint' as const),
        isPrerendered: prerender,
        methods: type === 'page' ? null : methodsOf(component),
      },
    ]),
  );
  return [...routes.values()].sort((a, b) => (a.pattern < b.pattern ? -1 : 1));
}
