import { UUID, uuidv7 } from 'uuidv7';

/** A fresh UUID of version 7, later in order than any made here before. */
export const newId = (): string => uuidv7();

/**
 * The UUID of version 7 for a moment and 10 random bytes, RFC 9562 section 5.7: for places where
 * clock and chance are arguments.
 *
 * @param time ms since 1970, from 0 to 2^48 - 1
 * @throws RangeError for other times or another number of bytes
 */
export function idAt(time: number, random: Uint8Array): string {
  if (random.length !== 10) throw new RangeError('random must be 10 bytes.');
  const view = new DataView(random.buffer, random.byteOffset, random.length);
  return UUID.fromFieldsV7(
    time,
    view.getUint16(0) & 0xfff,
    view.getUint32(2) & 0x3fffffff,
    view.getUint32(6),
  ).toString();
}
