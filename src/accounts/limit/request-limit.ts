import { ofProcess } from '../../logging/index.ts';
import { networkOf } from './network-of.ts';
import { makeTokenBuckets, type TokenBuckets } from './token-buckets.ts';

/** Requests in a minute, counted as `costOf` says; 0: as many as anybody likes. */
export type RequestLimits = {
  readonly perPerson: number;
  /** by all who come from one address and are not signed in */
  readonly perAddress: number;
};

/** Who asks: a person who is signed in, or else whoever comes from this address. */
export type Asker = { readonly person: string | null; readonly address: string };
export type CountedBy = 'person' | 'address';

/** Takes a request of that cost: 0, or the seconds to wait. */
export type TakeRequest = (asker: Asker, cost: number, now?: number) => number;

/** @param onRefused told each time somebody has to wait */
export function makeRequestLimit(
  { perPerson, perAddress }: RequestLimits,
  onRefused: (by: CountedBy) => void = () => undefined,
): TakeRequest {
  const bucketsOf = (perMinute: number): TokenBuckets | null =>
    perMinute === 0 ? null : makeTokenBuckets(perMinute);
  const buckets = { person: bucketsOf(perPerson), address: bucketsOf(perAddress) };
  return ({ person, address }, cost, now = performance.now()) => {
    const by = person === null ? 'address' : 'person';
    const wait = buckets[by]?.take(person ?? networkOf(address), cost, now) ?? 0;
    if (wait > 0) onRefused(by);
    return wait;
  };
}

const inForce = ofProcess('request-limit', () => ({ take: null as TakeRequest | null }));

/** Makes a limit the one of this process, or null for none. */
export function useRequestLimit(take: TakeRequest | null): void {
  inForce.take = take;
}

/** Takes a request under the limit of this process. */
export const takeRequest: TakeRequest = (asker, cost) => inForce.take?.(asker, cost) ?? 0;
