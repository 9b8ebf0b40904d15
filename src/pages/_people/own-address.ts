/**
 * The whole address of a path of this site, as the person asking reaches it: SITE_URL where it is set,
 * else the host they asked by. The server answers only to hosts of its own, so it cannot be a stranger's.
 */
export function ownAddress(path: string, request: Request): string {
  const set = process.env['SITE_URL'];
  const asked = new URL(request.url);
  const host = request.headers.get('host') ?? asked.host;
  return new URL(path, set || `${asked.protocol}//${host}`).href;
}
