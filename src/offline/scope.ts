/** The few words of the service worker standard this worker speaks; the DOM's own types have none of them. */
export type ExtendableEvent = Event & { waitUntil(work: Promise<unknown>): void };
export type FetchEvent = ExtendableEvent & {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
};
export type MessageFrom = ExtendableEvent & { readonly data: unknown; readonly origin: string };

type Client = { postMessage(message: unknown): void };
type Events = {
  readonly install: ExtendableEvent;
  readonly activate: ExtendableEvent;
  readonly fetch: FetchEvent;
  readonly message: MessageFrom;
};

export type WorkerScope = {
  readonly location: Location;
  readonly clients: {
    claim(): Promise<void>;
    matchAll(of: { readonly includeUncontrolled: boolean }): Promise<readonly Client[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener<Name extends keyof Events>(
    name: Name,
    listen: (event: Events[Name]) => void,
  ): void;
};

export const scope = globalThis as unknown as WorkerScope;
