import type { Bench } from '../bench/index.ts';
import type { LogEvent } from './log/log-event.ts';
import type { Work } from './work.ts';

type BenchRegistered = LogEvent & {
  readonly kind: 'bench.registered';
  readonly body: {
    readonly bench: string;
    readonly asset: string;
    readonly title: string;
    readonly work: readonly Work[];
    readonly limits: string;
    readonly file: Bench;
  };
};

/** A machine of the workshop as the register has it now. */
export type RegisteredBench = {
  readonly id: string;
  /** mark on the machine, such as AL-01 */
  readonly asset: string;
  readonly title: string;
  readonly work: readonly Work[];
  /** id of the limit set in force */
  readonly limits: string;
  readonly file: Bench;
  readonly since: string;
};

const isRegistration = (event: LogEvent): event is BenchRegistered =>
  event.kind === 'bench.registered';

/** The register as its events leave it, by asset mark: a later entry of a bench replaces the earlier. */
export function registerOf(events: readonly LogEvent[]): RegisteredBench[] {
  const benches = new Map<string, RegisteredBench>();
  for (const event of events) {
    if (!isRegistration(event) || event.altered === true) continue;
    const { bench, asset, title, work, limits, file } = event.body;
    const since = benches.get(bench)?.since ?? event.at;
    benches.set(bench, { id: bench, asset, title, work, limits, file, since });
  }
  return [...benches.values()].sort((a, b) => a.asset.localeCompare(b.asset, 'en'));
}
