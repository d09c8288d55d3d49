import type { Page } from 'playwright-core';

/** All that the page's origin keeps in databases and in local storage, as text that two dumps can be compared by. */
export async function dumpStored(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const answer = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((found, fail) => {
        request.onsuccess = () => found(request.result);
        request.onerror = () => fail(request.error);
      });
    const dumpOf = async (name: string): Promise<unknown> => {
      const db = await answer(indexedDB.open(name));
      const names = [...db.objectStoreNames];
      const tx = db.transaction(names, 'readonly');
      const rows = await Promise.all(
        names.map(async (store) => [
          store,
          await answer(tx.objectStore(store).getAllKeys()),
          await answer(tx.objectStore(store).getAll()),
        ]),
      );
      db.close();
      return [name, rows];
    };
    const databases = await indexedDB.databases();
    const dumps = await Promise.all(databases.flatMap(({ name }) => (name === undefined ? [] : [dumpOf(name)])));
    return JSON.stringify([dumps, Object.entries(localStorage), Object.entries(sessionStorage)], null, 1);
  });
}
