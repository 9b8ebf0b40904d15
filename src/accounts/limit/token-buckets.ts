/** A bucket that nobody took from for so long is full, so it need not be kept, ms. */
const FULL_AFTER_MS = 60_000;
/** So many askers are told apart at once; some 10 MB. */
const MOST_BUCKETS = 50_000;

type Bucket = { readonly tokens: number; readonly at: number };

export type TokenBuckets = {
  /**
   * Takes `cost` tokens from somebody's bucket. Returns 0, or the whole seconds after which there are enough; then
   * nothing is taken.
   * @param now ms of any clock that does not go back
   */
  readonly take: (key: string, cost: number, now: number) => number;
  readonly size: () => number;
};

/**
 * A bucket of tokens for each asker. It holds what comes into it in a minute and begins full, so that many requests
 * at one moment are nothing unusual, and only going on like that is.
 * @param perMinute tokens that come back in a minute, 1 or more
 * @param most buckets kept; past that the one that was taken from the longest ago is forgotten
 */
export function makeTokenBuckets(perMinute: number, most: number = MOST_BUCKETS): TokenBuckets {
  const buckets = new Map<string, Bucket>();
  const perMs = perMinute / 60_000;

  /** The map keeps them in the order in which they were last taken from. */
  function forget(now: number): void {
    for (const [key, { at }] of buckets) {
      if (buckets.size <= most && now - at < FULL_AFTER_MS) return;
      buckets.delete(key);
    }
  }

  return {
    take(key, cost, now) {
      const kept = buckets.get(key) ?? { tokens: perMinute, at: now };
      const tokens = Math.min(perMinute, kept.tokens + (now - kept.at) * perMs);
      // what costs more than a bucket holds is given to a full one
      const missing = Math.min(cost, perMinute) - tokens;
      buckets.delete(key);
      buckets.set(key, { tokens: missing > 0 ? tokens : -missing, at: now });
      forget(now);
      return missing > 0 ? Math.ceil(missing / perMs / 1_000) : 0;
    },
    size: () => buckets.size,
  };
}
