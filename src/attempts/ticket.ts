import { z } from 'zod';
import { openToken, type Site, sealToken } from '../accounts/index.ts';

/** What a page carries, sealed, between being given a bench and handing it in. */
const TicketSchema = z.strictObject({
  task: z.string(),
  seed: z.string(),
  /** ms since 1970 */
  issued: z.number(),
  /** null for somebody without an account: nothing is stored about them */
  attempt: z
    .strictObject({
      id: z.string(),
      person: z.string(),
      org: z.string(),
      /** id the event of handing in will have, so that sending it twice enters it once */
      submission: z.string(),
    })
    .nullable(),
});

export type Ticket = z.infer<typeof TicketSchema>;

/** A bench left lying for longer than this is taken away. */
const GOOD_FOR_DAYS = 30;

const secretOf = (site: Site): string => site.siteKey.deriveSecret('attempts');

export const sealTicket = (site: Site, ticket: Ticket): string => sealToken(secretOf(site), ticket);

/** The ticket in a token, or null when it is not ours or too old. */
export function readTicket(site: Site, token: string, now: Date): Ticket | null {
  const read = TicketSchema.safeParse(openToken(secretOf(site), token));
  if (!read.success) return null;
  const age = now.getTime() - read.data.issued;
  return age <= GOOD_FOR_DAYS * 86_400_000 ? read.data : null;
}
