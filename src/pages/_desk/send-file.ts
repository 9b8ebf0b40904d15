/** Text that is made as it is sent, as a file to keep. It belongs to whoever asked: nothing in between keeps it. */
export function sendFile(
  parts: Pick<AsyncGenerator<string>, 'next' | 'return'>,
  file: { readonly name: string; readonly type: string },
): Response {
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      const { done, value } = await parts.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
    async cancel() {
      await parts.return(undefined);
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
