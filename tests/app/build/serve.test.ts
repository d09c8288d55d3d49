import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { rangeOf, startServer } from '../../../app/build/serve.mjs';

let folder: string;
let server: Awaited<ReturnType<typeof startServer>>;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hallpace-serve-'));
  const root = join(folder, 'site');
  mkdirSync(join(root, 'assets'), { recursive: true });
  mkdirSync(join(folder, 'site-beside'));
  writeFileSync(join(folder, 'site-beside', 'secret.txt'), 'secret');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  writeFileSync(join(root, 'index.html'), '<!doctype html><title>one</title>');
  writeFileSync(join(root, 'worker.js'), '// worker');
  writeFileSync(join(root, 'empty.txt'), '');
  writeFileSync(join(root, 'assets', 'tone-AbCd_123.wav'), '0123456789');
  server = await startServer({ root, port: 0 });
});

afterEach(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Sends the path as it is: `fetch` would tidy the dots away before they reach the server. */
function get(path: string, headers: Record<string, string> = {}, method = 'GET') {
  return new Promise<{ status: number; headers: Record<string, unknown>; body: string }>((done, fail) => {
    const sent = request({ host: '127.0.0.1', port: server.port, path, headers, method }, (answer) => {
      let body = '';
      answer.on('data', (bytes) => {
        body += bytes;
      });
      answer.on('end', () => done({ status: answer.statusCode ?? 0, headers: answer.headers, body }));
    });
    sent.on('error', fail);
    sent.end();
  });
}

test('answers a folder with its page, to be asked for again each time', async () => {
  const answer = await get('/?from=home');

  expect(answer.status).toBe(200);
  expect(answer.body).toContain('<title>one</title>');
  expect(answer.headers).toMatchObject({ 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-cache' });
});

test('lets a browser keep what has a hash in its name, and nothing else', async () => {
  const hashed = await get('/assets/tone-AbCd_123.wav');
  const worker = await get('/worker.js');

  expect(hashed.headers).toMatchObject({
    'content-type': 'audio/wav',
    'cache-control': expect.stringContaining('immutable'),
  });
  expect(worker.headers).toMatchObject({
    'content-type': 'text/javascript; charset=utf-8',
    'cache-control': 'no-cache',
  });
});

test('answers a range with that part', async () => {
  const answer = await get('/assets/tone-AbCd_123.wav', { range: 'bytes=2-4' });

  expect(answer).toMatchObject({ status: 206, body: '234' });
  expect(answer.headers).toMatchObject({ 'content-range': 'bytes 2-4/10', 'content-length': '3' });
});

test('refuses a range beyond the end', async () => {
  const answer = await get('/assets/tone-AbCd_123.wav', { range: 'bytes=10-' });

  expect(answer).toMatchObject({ status: 416, body: '' });
  expect(answer.headers).toMatchObject({ 'content-range': 'bytes */10' });
});

test('answers HEAD without a body, and an empty file with none', async () => {
  const head = await get('/index.html', {}, 'HEAD');
  const empty = await get('/empty.txt');

  expect(head).toMatchObject({ status: 200, body: '' });
  expect(empty).toMatchObject({ status: 200, body: '' });
});

test('takes no order to change anything', async () => {
  expect((await get('/index.html', {}, 'PUT')).status).toBe(405);
});

test.for([
  '/../secret.txt',
  '/%2e%2e/secret.txt',
  '/..%2fsecret.txt',
  '/assets/..%2f..%2fsecret.txt',
  '/..%2fsite-beside/secret.txt',
  '/%00',
  '/%E0%A4%A',
  '/assets',
  '/assets/',
  '/gone.wav',
])('%s leads to no file and nowhere else', async (path) => {
  const answer = await get(path);

  expect(answer.status).toBe(404);
  expect(answer.body).not.toContain('secret');
  expect(answer.headers).not.toHaveProperty('location');
});

test('keeps a list of what was asked for', async () => {
  await get('/');
  await get('/worker.js');

  expect(server.requests).toEqual(['GET /', 'GET /worker.js']);
});

test('serves another folder at the same address when told to', async () => {
  const next = join(folder, 'next');
  mkdirSync(next);
  writeFileSync(join(next, 'index.html'), '<!doctype html><title>two</title>');
  server.swapRoot(next);

  expect((await get('/')).body).toContain('<title>two</title>');
});

test('a port that is taken is a failure, not another port', async () => {
  await expect(startServer({ root: folder, port: server.port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
});

// RFC 9110, section 14.1.2 and 14.2: first and last byte, an open end, a suffix; a server may ignore
// what it does not know.
describe('the range asked for', () => {
  test.for([
    ['bytes=0-0', 10, { first: 0, last: 0 }],
    ['bytes=5-', 10, { first: 5, last: 9 }],
    ['bytes=5-99', 10, { first: 5, last: 9 }],
    ['bytes=-3', 10, { first: 7, last: 9 }],
    ['bytes=-99', 10, { first: 0, last: 9 }],
    ['bytes=-0', 10, 'beyond'],
    ['bytes=10-', 10, 'beyond'],
    ['bytes=0-', 0, 'beyond'],
    ['bytes=4-2', 10, null],
    ['bytes=-', 10, null],
    ['bytes=0-1,3-4', 10, null],
    ['lines=0-1', 10, null],
    [undefined, 10, null],
  ] as const)('%s of %i bytes', ([header, size, wanted]) => {
    expect(rangeOf(header, size)).toEqual(wanted);
  });
});
