export type DeviceKind = 'phone' | 'tablet' | 'computer';

/** What sort of device a browser says it runs on: enough to know one's own again, and nothing more is kept. */
export function deviceKind(headers: Headers): DeviceKind {
  const agent = headers.get('user-agent') ?? '';
  if (/iPad|Tablet|Android(?!.*Mobile)/i.test(agent)) return 'tablet';
  return /Mobi|iPhone|Android/i.test(agent) ? 'phone' : 'computer';
}
