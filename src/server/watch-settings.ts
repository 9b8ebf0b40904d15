import { z } from 'zod';
import { describeProblem } from '../bench/index.ts';
import { LOG_LEVELS, type LogLevel } from '../logging/index.ts';

const portRule = 'must be a whole number from 1 to 65535';
const graceRule = 'must be a whole number of seconds from 0 to 600';
const floorRule = 'must be a whole number of megabytes from 0 to 1000000';
const tokenRule =
  'must be drawn at random, at least 128 bits: 32 or more hexadecimal digits, or 22 or more of A-Z a-z 0-9 - _';

/** At least 128 bits by its length and alphabet, and not one sign over and over. */
function isStrong(token: string): boolean {
  const longEnough = /^[0-9a-f]+$/i.test(token)
    ? token.length >= 32
    : /^[A-Za-z0-9_-]{22,}$/.test(token);
  return longEnough && new Set(token.toLowerCase()).size >= 8;
}

const whole = (least: number, most: number, rule: string) =>
  z
    .string()
    .regex(/^\d{1,7}$/, { error: rule })
    .transform(Number)
    .refine((value) => value >= least && value <= most, { error: rule });

const WatchEnvironmentSchema = z.object({
  LOG_LEVEL: z
    .enum(LOG_LEVELS, { error: `must be one of: ${LOG_LEVELS.join(', ')}` })
    .default('info'),
  LOG_FORMAT: z.enum(['json', 'text'], { error: 'must be json or text' }).optional(),
  METRICS_TOKEN: z
    .string()
    .max(500, { error: tokenRule })
    .refine(isStrong, { error: tokenRule })
    .optional(),
  METRICS_PORT: whole(1, 65_535, portRule).optional(),
  STOP_GRACE_S: whole(0, 600, graceRule).default(10),
  DISK_FLOOR_MB: whole(0, 1_000_000, floorRule).default(200),
});

/** How the running site is watched: none of it changes what people see. */
export type WatchSettings = {
  readonly logLevel: LogLevel;
  readonly logFormat: 'json' | 'text';
  /** who shows it may read /metrics; null: there is no /metrics at the site's own address */
  readonly metricsToken: string | null;
  /** a port of this machine alone that gives the metrics to anybody on it */
  readonly metricsPort: number | null;
  /** how long running requests may take when the site stops, ms */
  readonly stopGraceMs: number;
  /** room the disk of the data folder must have for the site to call itself ready, bytes */
  readonly diskFloor: number;
};

/**
 * Reads how the site is to be watched, or says in one sentence which variable is wrong.
 * @param terminal whether a person looks at standard output
 */
export function readWatchSettings(
  environment: Readonly<Record<string, string | undefined>>,
  { terminal }: { readonly terminal: boolean },
): { ok: true; settings: WatchSettings } | { ok: false; message: string } {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const read = WatchEnvironmentSchema.safeParse(given);
  if (!read.success) {
    return { ok: false, message: describeProblem(read.error, 'The environment').message };
  }
  const { LOG_LEVEL, LOG_FORMAT, METRICS_TOKEN, METRICS_PORT, STOP_GRACE_S, DISK_FLOOR_MB } =
    read.data;
  return {
    ok: true,
    settings: {
      logLevel: LOG_LEVEL,
      logFormat: LOG_FORMAT ?? (terminal ? 'text' : 'json'),
      metricsToken: METRICS_TOKEN ?? null,
      metricsPort: METRICS_PORT ?? null,
      stopGraceMs: STOP_GRACE_S * 1_000,
      diskFloor: DISK_FLOOR_MB * 1_000_000,
    },
  };
}

/** Nothing asked for: what a command or a test runs a site with. */
export const UNWATCHED: WatchSettings = {
  logLevel: 'info',
  logFormat: 'json',
  metricsToken: null,
  metricsPort: null,
  stopGraceMs: 5_000,
  diskFloor: 0,
};
