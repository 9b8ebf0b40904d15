import { isIP } from 'node:net';
import type { Site } from '../site.ts';

/** Whom a passkey is for (WebAuthn Level 2, section 5.1.2): a domain, and the one origin that may ask. */
export type RelyingParty = { readonly id: string; readonly origin: string };

/**
 * The domain of SITE_URL; without it, localhost at whatever port was asked. Null where there can be no passkey: a
 * passkey belongs to a domain, never to a bare network address, and only the site's own address may ask for it.
 * @param origin of the page that asks, as the browser sends it
 */
export function relyingParty(
  { address }: Pick<Site, 'address'>,
  origin: string | null,
): RelyingParty | null {
  const id = address.hostname;
  if (isIP(id.replace(/^\[|\]$/g, '')) !== 0) return null;
  if (origin === address.origin) return { id, origin };
  if (id !== 'localhost' || origin === null || !URL.canParse(origin)) return null;
  const asked = new URL(origin);
  return asked.hostname === id && asked.protocol === 'http:' ? { id, origin: asked.origin } : null;
}
