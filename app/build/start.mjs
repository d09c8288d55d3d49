// `npm start`: builds the app and serves it, installing first what is missing.
import { ensureInstalled } from './ensure-installed.mjs';
import { startServer, wantedPort } from './serve.mjs';

/** @param {unknown} error */
function tell(error) {
  const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
  const words = isTaken
    ? `Port ${wantedPort()} is taken: name another one, for example PORT=4174 npm start.`
    : String(error instanceof Error ? error.message : error);
  process.stderr.write(`${words}\n`);
  process.exit(1);
}

try {
  const port = wantedPort();
  ensureInstalled();
  const { build } = await import('./build.mjs');
  const { outDir } = await build();
  const { url } = await startServer({ root: outDir, port });
  console.log(`Hallpace is at ${url}`);
} catch (error) {
  tell(error);
}
