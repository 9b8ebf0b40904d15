/** The challenge inside what a passkey answered; empty when there is none. The answer signs it, so it is the one meant. */
export function challengeIn(clientDataJSON: string): string {
  try {
    const read: unknown = JSON.parse(Buffer.from(clientDataJSON, 'base64url').toString('utf8'));
    const found = typeof read === 'object' && read !== null && 'challenge' in read;
    return found && typeof read.challenge === 'string' ? read.challenge : '';
  } catch {
    // torn or not JSON: no challenge of ours is empty
    return '';
  }
}
