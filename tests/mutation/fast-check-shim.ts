import fc from 'fast-check';

/** The same properties on fewer examples: a change that only shows on the hundredth counts as missed. */
const MOST_RUNS = 40;

const assert: typeof fc.assert = ((property: never, parameters: fc.Parameters<unknown> = {}) =>
  fc.assert(property, {
    ...parameters,
    numRuns: Math.min(MOST_RUNS, parameters.numRuns ?? MOST_RUNS),
    // a failing example is enough; making it small takes time
    endOnFailure: true,
  })) as typeof fc.assert;

export default { ...fc, assert };
