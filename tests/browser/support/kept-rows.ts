import type { Page } from 'playwright-core';
import type { Mark } from '../../../src/class-run/marks.ts';
import type { Beat, Paper, RecordHead } from '../../../src/records/stored-shapes.ts';

/** What the phone keeps of one class, read straight from its database and not through the app. */
export type KeptClass = {
  readonly head: RecordHead;
  readonly marks: readonly Mark[];
  readonly beat: Beat | null;
  readonly paper: Paper;
};

type Rows = {
  readonly records: RecordHead[];
  readonly marks: { readonly recordId: string; readonly mark: Mark }[];
  readonly beats: Beat[];
  readonly papers: Paper[];
};

/** Every class that is kept, oldest first. */
export async function keptClasses(page: Page): Promise<readonly KeptClass[]> {
  const { records, marks, beats, papers } = await page.evaluate(readAllInPage);
  return records
    .sort((one, other) => one.startedWallMs - other.startedWallMs)
    .flatMap((head) => {
      const paper = papers.find(({ hash }) => hash === head.paperHash);
      const own = marks.filter(({ recordId }) => recordId === head.id).map(({ mark }) => mark);
      const beat = beats.find(({ recordId }) => recordId === head.id) ?? null;
      return paper === undefined ? [] : [{ head, marks: own, beat, paper }];
    });
}

/** The class that was started last; throws where none is kept. */
export async function lastKept(page: Page): Promise<KeptClass> {
  const last = (await keptClasses(page)).at(-1);
  if (last === undefined) throw new Error('no class is kept');
  return last;
}

/** The kinds of the marks of the class that was started last, `why` in place of `changed`. */
export async function markKinds(page: Page): Promise<readonly string[]> {
  return (await lastKept(page)).marks.map((mark) => (mark.kind === 'changed' ? mark.why : mark.kind));
}

/** Forgets every class behind the app's back, so that the next test begins on a phone without one. Needs a page of the app. */
export async function forgetClasses(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('hallpace');
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const db = opening.result;
          const names = ['records', 'marks', 'beats', 'papers'];
          const tx = db.transaction(names, 'readwrite');
          for (const name of names) tx.objectStore(name).clear();
          tx.oncomplete = () => {
            db.close();
            done();
          };
          tx.onabort = () => fail(tx.error);
        };
      }),
  );
}

function readAllInPage(): Promise<Rows> {
  return new Promise((found, fail) => {
    const opening = indexedDB.open('hallpace');
    opening.onerror = () => fail(opening.error);
    opening.onsuccess = () => {
      const db = opening.result;
      const names = ['records', 'marks', 'beats', 'papers'] as const;
      const tx = db.transaction(names, 'readonly');
      const [records, marks, beats, papers] = names.map((name) => tx.objectStore(name).getAll());
      tx.oncomplete = () => {
        db.close();
        found({
          records: records?.result ?? [],
          marks: marks?.result ?? [],
          beats: beats?.result ?? [],
          papers: papers?.result ?? [],
        });
      };
      tx.onabort = () => fail(tx.error);
    };
  });
}
