// Asks the site on this machine whether it is well, for a container or a supervisor. Exit code 0: it is; 1: not.
const port = process.env['PORT'] || '4400';
try {
  const reply = await fetch(`http://127.0.0.1:${port}/api/health`, {
    signal: AbortSignal.timeout(4_000),
  });
  process.exitCode = reply.ok ? 0 : 1;
} catch {
  process.exitCode = 1;
}

export {};
