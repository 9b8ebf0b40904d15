import { readFile, stat } from 'node:fs/promises';
import { resolve } from 'node:path';

/** A problem with what was asked for or handed in, as one sentence. */
export class BadInput extends Error {
  override readonly name = 'BadInput';
}

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'is not there',
  ENOTDIR: 'is not there',
  EISDIR: 'is a folder, not a file',
  EACCES: 'may not be read',
};

/** npm runs commands from the project's folder; a path was typed in the caller's. */
export function locate(path: string): string {
  return resolve(process.env['INIT_CWD'] ?? '.', path);
}

/**
 * The text of a small file, or of standard input for `-`.
 * @param largest bytes
 * @throws BadInput
 */
export async function readText(path: string, largest: number): Promise<string> {
  return (await readBytes(path, largest)).toString('utf8');
}

/**
 * The bytes of a file, or of standard input for `-`.
 * @param largest bytes
 * @throws BadInput
 */
export async function readBytes(path: string, largest: number): Promise<Buffer> {
  if (path === '-') return readStandardInput(largest);
  try {
    const { size } = await stat(locate(path));
    if (size > largest)
      throw new BadInput(`${path} must be at most ${largest} bytes; it has ${size}.`);
    return await readFile(locate(path));
  } catch (error) {
    if (error instanceof BadInput) throw error;
    const { code = '' } = error as NodeJS.ErrnoException;
    throw new BadInput(`${path} ${WHY[code] ?? `cannot be read (${code || 'unknown reason'})`}.`);
  }
}

async function readStandardInput(largest: number): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of process.stdin) {
    chunks.push(chunk as Buffer);
    size += (chunk as Buffer).length;
    if (size > largest) throw new BadInput(`Standard input must be at most ${largest} bytes.`);
  }
  return Buffer.concat(chunks);
}

/** JSON of a text. @throws BadInput */
export function parseJson(text: string, name: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    throw new BadInput(`${name} must be JSON.`);
  }
}

/** Text from a file, safe to print: a file must not steer the terminal. */
export const printable = (text: string): string =>
  text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, '?');

/**
 * Runs a command and sets the exit code. Bad input is 2, with one line on standard error; a reader
 * that closes the pipe early is no error.
 */
export async function runCommand(
  command: (words: readonly string[]) => Promise<number>,
  failure: string,
): Promise<void> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
  try {
    process.exitCode = await command(process.argv.slice(2));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    const message = error instanceof BadInput ? reason : `${failure}: ${reason}`;
    process.stderr.write(`${printable(message.replace(/\s+/g, ' '))}\n`);
    process.exitCode = 2;
  }
}
