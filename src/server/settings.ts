import { z } from 'zod';
import { describeProblem } from '../bench/index.ts';

const portRule = 'must be a whole number from 0 to 65535 (0 picks a free port)';
const addressRule = 'must be an address like https://saw.example, without a path';

function isSiteAddress(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, pathname, search, hash } = new URL(text);
  return /^https?:$/.test(protocol) && pathname === '/' && search === '' && hash === '';
}

/** What the environment may say, every field optional. */
const EnvironmentSchema = z.object({
  /** TCP port. Default 4400. */
  PORT: z
    .string()
    .regex(/^\d{1,5}$/, { error: portRule })
    .transform(Number)
    .refine((port) => port <= 65_535, { error: portRule })
    .default(4400),
  /** Network address to listen on. Default 127.0.0.1, this machine only. */
  HOST: z.string().min(1, { error: 'must be a host name or IP address' }).default('127.0.0.1'),
  /** Folder of the store and the site key. Default ./data. */
  DATA_DIR: z.string().min(1, { error: 'must be a folder' }).default('data'),
  /** Where people reach the site when it stands behind a proxy that adds https. */
  SITE_URL: z.string().refine(isSiteAddress, { error: addressRule }).optional(),
});

export type Settings = {
  readonly port: number;
  readonly host: string;
  readonly dataDir: string;
  /** Null when people reach the site by the port itself. */
  readonly siteUrl: URL | null;
};

/** Reads the settings, or says in one sentence which one is wrong. An empty variable counts as not set. */
export function readSettings(
  environment: Readonly<Record<string, string | undefined>>,
): { ok: true; settings: Settings } | { ok: false; message: string } {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const read = EnvironmentSchema.safeParse(given);
  if (!read.success) {
    return { ok: false, message: describeProblem(read.error, 'The environment').message };
  }
  const { PORT, HOST, DATA_DIR, SITE_URL } = read.data;
  return {
    ok: true,
    settings: {
      port: PORT,
      host: HOST,
      dataDir: DATA_DIR,
      siteUrl: SITE_URL === undefined ? null : new URL(SITE_URL),
    },
  };
}
