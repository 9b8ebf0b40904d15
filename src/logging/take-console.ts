import { describeError } from './describe-error.ts';
import { log } from './log.ts';

/**
 * Takes over what libraries print. Their lines hold addresses and messages as they like, so of a line only
 * that it was printed is logged, and of an error in it what the log keeps of any error.
 */
export function takeConsole(): void {
  const take =
    (level: 'error' | 'warn' | 'debug') =>
    (...given: readonly unknown[]): void => {
      const error = given.find((one) => one instanceof Error);
      log(level, 'library', error === undefined ? {} : { error: describeError(error) });
    };
  console.error = take('error');
  console.warn = take('warn');
  console.log = take('debug');
  console.info = take('debug');
  console.debug = take('debug');
}
