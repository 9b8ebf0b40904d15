import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { makeBackup, restoreBackup } from '../../../src/store/backup/index.ts';
import { makeTempStore, type TempFileStore } from '../temp-store.ts';

let temp: TempFileStore;
beforeEach(async () => {
  temp = await makeTempStore();
});
afterEach(() => temp.remove());

const order = (folder: string) => ({
  dataDir: temp.folder,
  folder,
  version: '0.0.1',
  now: new Date('2026-03-03T09:30:00Z'),
});

/** Another process that appends `count` events; `kept` grows with what the store has acknowledged. */
function startWriter(count: number) {
  const child: ChildProcess = spawn(
    process.execPath,
    [join(import.meta.dirname, 'steady-writer.ts'), temp.folder, String(count)],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  const kept: string[] = [];
  const lines = createInterface({
    input: child.stdout as NodeJS.ReadableStream & { read(): void },
  });
  const until = (size: number) =>
    new Promise<void>((resolve) => {
      lines.on('line', () => kept.length >= size && resolve());
      lines.on('close', resolve);
    });
  lines.on('line', (id) => kept.push(id));
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  return { kept, until, ended };
}

const idsIn = (file: string): string[] => {
  const database = new DatabaseSync(file, { readOnly: true });
  const rows = database.prepare('select id from event order by seq').all();
  database.close();
  return rows.map(({ id }) => String(id));
};

it('a backup made while another process appends holds all that was acknowledged before it', async () => {
  const writer = startWriter(200);
  await writer.until(40);
  const before = [...writer.kept];
  const folder = join(temp.folder, 'backup');
  const { log } = await makeBackup(order(folder));
  expect(await writer.ended).toBe(0);
  expect(before.length).toBeLessThan(200);
  expect(writer.kept).toHaveLength(200);

  const data = join(temp.folder, 'again');
  const { manifest } = await restoreBackup({ folder: folder, dataDir: data });
  const there = idsIn(join(data, 'store.sqlite'));
  expect(before.filter((id) => !there.includes(id))).toEqual([]);
  // a moment of the log, without a gap: what follows in the log follows nowhere else
  expect(there).toEqual(idsIn(temp.file).slice(0, log.size));
  expect(manifest.log).toEqual(log);
});

it('what was erased is not carried along', async () => {
  const secret = 'a-lesson-answer-that-somebody-erased';
  const raw = temp.openRaw();
  raw.exec('pragma foreign_keys = off');
  const add = raw.prepare(
    "insert into learning_answer values ('p', ?, 'lesson', 'q', 1, '2026-03-03T09:30:00.000Z', '2026-03-03T09:30:00.000Z')",
  );
  for (let i = 0; i < 500; i++) add.run(`${secret}-${i}`);
  raw.exec('delete from learning_answer');
  raw.exec('pragma wal_checkpoint(truncate)');
  raw.close();
  // the file itself still has it, or this test would show nothing
  expect(readFileSync(temp.file).includes(secret)).toBe(true);
  await makeBackup(order(join(temp.folder, 'backup')));
  expect(readFileSync(join(temp.folder, 'backup', 'store.sqlite')).includes(secret)).toBe(false);
});
