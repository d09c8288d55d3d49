// A small static server on 127.0.0.1. Runs before anything is installed: Node's own modules only.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { pipeline } from 'node:stream';
import { fileURLToPath } from 'node:url';

/** @type {Record<string, string>} */
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.wav': 'audio/wav',
  '.mp3': 'audio/mpeg',
  '.m4a': 'audio/mp4',
  '.ogg': 'audio/ogg',
};

const HASHED = /-[\w-]{8}\.\w+$/;

/**
 * The file that a request's address names, or null where there is none inside `root`.
 *
 * @param {string} root
 * @param {string} address
 */
function fileFor(root, address) {
  try {
    const path = decodeURIComponent(new URL(address, 'http://localhost').pathname);
    const file = resolve(root, `.${path.endsWith('/') ? `${path}index.html` : path}`);
    if (path.includes('\0') || !file.startsWith(root + sep)) return null;
    const { size } = statSync(file, { throwIfNoEntry: false }) ?? {};
    return size !== undefined && statSync(file).isFile() ? { file, size } : null;
  } catch {
    return null;
  }
}

/**
 * The one byte range asked for (RFC 9110, section 14): null where there is none or its unit or form
 * is not known, which a server may ignore; 'beyond' where it lies outside the file.
 *
 * @param {string | undefined} header
 * @param {number} size
 * @returns {{ first: number, last: number } | 'beyond' | null}
 */
export function rangeOf(header, size) {
  const [, from, to] = /^bytes=(\d*)-(\d*)$/.exec(header ?? '') ?? [];
  if (from === undefined || to === undefined || from + to === '') return null;
  if (from === '')
    return to === '0' || size === 0 ? 'beyond' : { first: Math.max(0, size - Number(to)), last: size - 1 };
  const last = to === '' ? size - 1 : Math.min(Number(to), size - 1);
  if (to !== '' && Number(to) < Number(from)) return null;
  return Number(from) > last ? 'beyond' : { first: Number(from), last };
}

/**
 * @param {string} root
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function answer(root, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { allow: 'GET, HEAD' }).end();
    return;
  }
  const found = fileFor(root, request.url ?? '/');
  if (found === null) {
    response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-cache' });
    response.end('There is no such file.\n');
    return;
  }
  const range = rangeOf(request.headers.range, found.size);
  if (range === 'beyond') {
    response.writeHead(416, { 'content-range': `bytes */${found.size}` }).end();
    return;
  }
  const { first, last } = range ?? { first: 0, last: found.size - 1 };
  response.writeHead(range === null ? 200 : 206, {
    'content-type': TYPES[extname(found.file)] ?? 'application/octet-stream',
    'content-length': last - first + 1,
    'accept-ranges': 'bytes',
    'cache-control': HASHED.test(found.file) ? 'public, max-age=31536000, immutable' : 'no-cache',
    'x-content-type-options': 'nosniff',
    ...(range === null ? {} : { 'content-range': `bytes ${first}-${last}/${found.size}` }),
  });
  if (request.method === 'HEAD' || found.size === 0) response.end();
  // A browser that goes away in the middle is no fault of the server's.
  else pipeline(createReadStream(found.file, { start: first, end: last }), response, () => {});
}

/**
 * Serves the folder `root` on 127.0.0.1; rejects when the port is taken. Port 0 takes a free one.
 * `requests` grows by one line a request ("GET /index.html"); `swapRoot` serves another folder at
 * the same address, as a new release would be; `close` ends open connections too.
 *
 * @param {{ root: string, port: number }} options
 * @returns {Promise<{ url: string, port: number, requests: string[], swapRoot: (root: string) => void, close: () => Promise<void> }>}
 */
export function startServer(options) {
  let root = resolve(options.root);
  /** @type {string[]} */
  const requests = [];
  const server = createServer((request, response) => {
    requests.push(`${request.method} ${request.url}`);
    answer(root, request, response);
  });
  const close = () =>
    new Promise((/** @type {(value: void) => void} */ done) => {
      server.close(() => done());
      server.closeAllConnections();
    });
  return new Promise((done, fail) => {
    server.once('error', fail);
    server.listen(options.port, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address !== null ? address.port : options.port;
      const swapRoot = (/** @type {string} */ next) => {
        root = resolve(next);
      };
      done({ url: `http://localhost:${port}`, port, requests, swapRoot, close });
    });
  });
}

/**
 * The port to serve on: PORT, else 4173. Throws on a PORT that is none.
 */
export function wantedPort() {
  const port = Number(process.env['PORT'] || 4173);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new Error(`PORT is not a port: ${process.env['PORT']}`);
  return port;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { url } = await startServer({
    root: join(fileURLToPath(new URL('../../', import.meta.url)), 'dist'),
    port: wantedPort(),
  });
  console.log(`Hallpace is at ${url}`);
}
