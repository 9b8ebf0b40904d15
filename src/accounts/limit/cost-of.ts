/** Tokens that a request costs where it is more work than a page; by pattern of the address, in any language. */
export const DEAR: Readonly<Record<string, { readonly reads?: number; readonly writes?: number }>> =
  {
    // asked by whatever keeps the site running, which must not be told to wait
    '/api/health': { reads: 0 },
    // a password is hashed
    '/sign-in': { writes: 5 },
    '/set-up': { writes: 5 },
    '/api/practicals/confirm': { writes: 5 },
    // everything about a person, a workshop or its day, at once
    '/my-data/copy.json': { reads: 20 },
    '/my-data/organisation.json': { reads: 40 },
    '/who-may/matrix.csv': { reads: 10 },
    '/who-may/statements.jsonl': { reads: 20 },
    '/pack': { writes: 40 },
    '/api/packs/[id]/[file]': { reads: 5 },
    '/shared/[token]/[file]': { reads: 5 },
    // up to 2 MB comes in
    '/api/photos/[digest]': { writes: 2 },
  };

const READS = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Tokens that a request costs, 1 when it is nothing dear. @param route pattern without the language */
export function costOf(route: string, method: string): number {
  const { reads = 1, writes = 1 } = DEAR[route] ?? {};
  return READS.has(method) ? reads : writes;
}
