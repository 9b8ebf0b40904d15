/** A backup that cannot be made, or not be used. The message is one sentence for whoever asked. */
export class BackupProblem extends Error {
  override readonly name = 'BackupProblem';
}

/** What the system says is wrong, in words, for the errors that people meet. */
const WHY: Readonly<Record<string, string>> = {
  ENOSPC: 'there is no room left on that disk',
  EDQUOT: 'there is no room left for this user on that disk',
  EROFS: 'that disk may only be read',
  EACCES: 'this user may not write there',
  ENOENT: 'it is not there',
  ENOTDIR: 'a part of its path is a file',
  EIO: 'the disk reports a fault',
};

/** Primary result codes, https://sqlite.org/rescode.html. */
const SQLITE_WHY: Readonly<Record<number, string>> = {
  8: WHY['EROFS'] as string,
  10: WHY['EIO'] as string,
  11: 'the store itself is damaged',
  13: WHY['ENOSPC'] as string,
  26: 'it is no store',
};

/** The reason of an error, as the end of a sentence without its full stop. */
export function sayReason(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { code, errcode } = error as { code?: unknown; errcode?: unknown };
  const known =
    (typeof errcode === 'number' ? SQLITE_WHY[errcode & 0xff] : undefined) ??
    (typeof code === 'string' ? WHY[code] : undefined);
  return known ?? error.message.replace(/\.$/, '');
}
