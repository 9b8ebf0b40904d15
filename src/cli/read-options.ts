import { type ParseArgsConfig, parseArgs } from 'node:util';
import { BadInput } from './read-input.ts';

/** What was asked for on the command line. @throws BadInput: what is wrong with it, and the usage */
export function readOptions<Config extends ParseArgsConfig>(config: Config, usage: string) {
  try {
    return parseArgs(config);
  } catch (error) {
    const [reason = 'The options cannot be read'] = (error as Error).message.split(/[.\n]/);
    throw new BadInput(`${reason}. ${usage}`);
  }
}
