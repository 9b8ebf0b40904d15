/** Characters that go out at once: a part for each line would be most of the work. */
const PART = 65_536;

type Pieces = Pick<AsyncGenerator<string>, 'next' | 'return'>;

/** Pieces until there is enough for one part, and whether there are more. */
async function nextPart(pieces: Pieces): Promise<{ part: string; isLast: boolean }> {
  let part = '';
  while (part.length < PART) {
    const { done, value } = await pieces.next();
    if (done) return { part, isLast: true };
    part += value;
  }
  return { part, isLast: false };
}

/**
 * Text that is made as it is sent, as a file to keep. It belongs to whoever asked: nothing in between keeps it.
 * @param roomToSend waited for before each part, so that what a slow reader has not taken yet is not made either
 */
export function sendFile(
  pieces: Pieces,
  file: { readonly name: string; readonly type: string },
  roomToSend: () => Promise<void> = async () => undefined,
): Response {
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      await roomToSend();
      const { part, isLast } = await nextPart(pieces);
      if (part !== '') controller.enqueue(encoder.encode(part));
      if (isLast) controller.close();
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
  return new Response(body, {
    headers: {
      'content-type': file.type,
      'content-disposition': `attachment; filename="${file.name}"`,
      'cache-control': 'no-store',
    },
  });
}

/** A file that is not given, in one sentence of plain text. */
export const refuseFile = (status: number, sentence: string): Response =>
  new Response(`${sentence}\n`, {
    status,
    headers: { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' },
  });
