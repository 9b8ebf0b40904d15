/** One kind of address, and how it is answered. The first kind that takes an address answers it. */
export type Kind = {
  readonly takes: (url: URL, request: Request) => boolean;
  readonly answer: (url: URL, request: Request) => Promise<Response>;
};

/** Somebody goes to a page; all else is fetched by a page. */
export const isVisit = ({ mode }: Request): boolean => mode === 'navigate';

/** ms after which a page that is kept is shown, though the network may still answer. */
const PATIENCE = 4_000;

/**
 * The network first, so that a limit that was changed is seen at once; what is kept when it fails or
 * is too slow.
 * @throws TypeError where the network fails and nothing is kept
 */
export async function networkFirst(
  request: Request,
  find: () => Promise<Response | undefined>,
): Promise<Response> {
  const asked = fetch(request);
  asked.catch(() => null);
  const kept = await find();
  if (kept === undefined) return asked;
  const late = new Promise<Response>((show) => setTimeout(() => show(kept), PATIENCE));
  return Promise.race([asked.catch(() => kept), late]);
}
