/**
 * Asks as somebody who is not signed in: no cookie goes out, so nothing that belongs to a person comes back.
 * @throws TypeError without a network, Error for any answer that is not the thing itself
 */
export async function fetchPlain(path: string, fresh: 'fresh' | 'any'): Promise<Response> {
  const reply = await fetch(
    new Request(path, {
      credentials: 'omit',
      cache: fresh === 'fresh' ? 'no-cache' : 'default',
      // what the reader waits for goes first; a browser that does not know the word leaves it
      priority: 'low',
    } as RequestInit),
  );
  if (!reply.ok || reply.redirected) throw new Error(`${path} was answered with ${reply.status}`);
  return reply;
}
