/**
 * Only files of this site, nothing inline, no frame, no form to elsewhere. `data:` and `blob:` pictures are
 * ones the page's own script has drawn.
 */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

const NO_DEVICE = [
  'accelerometer',
  'camera',
  'display-capture',
  'geolocation',
  'gyroscope',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'serial',
  'usb',
]
  .map((feature) => `${feature}=()`)
  .join(', ');

const ALWAYS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  // Not no-referrer: with it a browser sends "Origin: null" on our own forms, which we must refuse.
  'referrer-policy': 'same-origin',
  'permissions-policy': NO_DEVICE,
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'origin-agent-cluster': '?1',
};

/** Two years, the length browsers ask for on their preload lists. */
const HTTPS_ONLY = 'max-age=63072000; includeSubDomains';

/** The headers every reply carries, whatever it is. `siteUrl` is null while the site is plain http. */
export function securityHeaders(siteUrl: URL | null): Readonly<Record<string, string>> {
  return siteUrl?.protocol === 'https:'
    ? { ...ALWAYS, 'strict-transport-security': HTTPS_ONLY }
    : ALWAYS;
}
