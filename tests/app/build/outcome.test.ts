import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { outcomeOf } from '../../../app/build/test.mjs';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hallpace-outcome-'));
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

type File = { name: string; status: string; assertionResults: { status: string; fullName: string }[] };

/** A report as vitest writes it, and the exit status that came with it. */
function outcome(files: File[], status: number) {
  const report = join(folder, 'report.json');
  writeFileSync(report, JSON.stringify({ testResults: files }));
  return outcomeOf(report, status, 'unit');
}

const ran = (status: string, fullName: string) => ({ status, fullName });

test('counts what passed and names what was skipped', () => {
  const found = outcome(
    [
      { name: 'a', status: 'passed', assertionResults: [ran('passed', 'one'), ran('skipped', 'two')] },
      { name: 'b', status: 'passed', assertionResults: [ran('passed', 'three'), ran('todo', 'four')] },
    ],
    0,
  );

  expect(found).toEqual({ passed: 2, failed: 0, skipped: ['two', 'four'], failures: [] });
});

test('counts each failed test once', () => {
  const found = outcome([{ name: 'a', status: 'failed', assertionResults: [ran('failed', 'one')] }], 1);

  expect(found).toMatchObject({ passed: 0, failed: 1, failures: ['one'] });
});

test('counts a file that could not be read as a failure', () => {
  const found = outcome([{ name: 'a', status: 'failed', assertionResults: [] }], 1);

  expect(found).toMatchObject({ failed: 1, failures: ['a could not be run'] });
});

test('counts a file whose tests passed and whose clearing up failed', () => {
  const found = outcome([{ name: 'a', status: 'failed', assertionResults: [ran('passed', 'one')] }], 1);

  expect(found).toMatchObject({ passed: 1, failed: 1 });
});

test('a run that ended with an error and names none is a failure', () => {
  const found = outcome([{ name: 'a', status: 'passed', assertionResults: [ran('passed', 'one')] }], 1);

  expect(found).toMatchObject({ passed: 1, failed: 1 });
});

test('a run without a report is a failure', () => {
  expect(outcomeOf(join(folder, 'none.json'), 0, 'unit')).toMatchObject({ passed: 0, failed: 1 });
});
