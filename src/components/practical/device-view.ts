import type { EventOf } from '../../records/index.ts';

type Enrolled = EventOf<'device-key.enrolled'>['body'];
type Ended = EventOf<'device-key.ended'>['body'];

/** One device that signs, or signed, for somebody. Every time is the site's own. */
export type DeviceKeyView = {
  readonly keyId: string;
  /** whose key it is */
  readonly person: string;
  readonly label: Enrolled['label'];
  readonly enrolledAt: string;
  /** when the site took in the first and the last record it signed; null before there is one */
  readonly firstUsed: string | null;
  readonly lastUsed: string | null;
  /** records it signed */
  readonly signed: number;
  readonly end: {
    readonly at: string;
    readonly by: string;
    readonly reason: Ended['reason'];
  } | null;
};

/** Why a device is ended, in the order in which the form offers them. */
export const END_REASONS = ['lost', 'stolen', 'replaced', 'left', 'other'] as const;
