import type { RecordLine } from '../../../src/ports/class-store.ts';

/** Lines asked for at a time. */
export const PAGE_SIZE = 20;

/** What of the list has come so far, and where the next page begins. */
export type Pages = {
  readonly lines: readonly RecordLine[];
  readonly beforeWallMs: number;
  readonly hasOlder: boolean;
  readonly isLoaded: boolean;
};

export const FIRST_PAGE: Pages = {
  lines: [],
  beforeWallMs: Number.MAX_SAFE_INTEGER,
  hasOlder: false,
  isLoaded: false,
};

/**
 * Adds a page. A line that cannot be read has no date: the next page begins before the oldest that has one, so that a
 * line may come twice and is then shown once; where a whole page has none, there is no way on.
 */
export function addPage(pages: Pages, page: readonly RecordLine[]): Pages {
  const known = new Set(pages.lines.map(idOf));
  const dated = page.flatMap((line) => (line.readable ? [line.head.startedWallMs] : []));
  return {
    lines: [...pages.lines, ...page.filter((line) => !known.has(idOf(line)))],
    beforeWallMs: Math.min(pages.beforeWallMs, ...dated),
    hasOlder: page.length >= PAGE_SIZE && dated.length > 0,
    isLoaded: true,
  };
}

function idOf(line: RecordLine): string {
  return line.readable ? line.head.id : line.id;
}
