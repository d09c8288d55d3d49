import { describe, expect, it } from 'vitest';
import { addPage, FIRST_PAGE, PAGE_SIZE } from '../../../../app/screens/review/record-pages.ts';
import type { RecordLine } from '../../../../src/ports/class-store.ts';
import { aHead } from '../../../builders/kept-class.ts';

const dated = (id: string, startedWallMs: number): RecordLine => ({
  readable: true,
  head: aHead(id, { startedWallMs }),
  lastSeq: 3,
});
const bare = (id: string): RecordLine => ({ readable: false, id, reason: 'unreadable' });
const fullPage = (line: (index: number) => RecordLine): readonly RecordLine[] =>
  Array.from({ length: PAGE_SIZE }, (_, index) => line(index));

describe('pages of classes', () => {
  it('begins the next page before the oldest class so far', () => {
    const pages = addPage(FIRST_PAGE, [dated('b', 2000), dated('a', 1000)]);
    expect(pages.beforeWallMs).toBe(1000);
  });

  it('ends with a page that is not full', () => {
    expect(addPage(FIRST_PAGE, [dated('a', 1000)]).hasOlder).toBe(false);
    expect(
      addPage(
        FIRST_PAGE,
        fullPage((index) => dated(`c${index}`, 9000 - index)),
      ).hasOlder,
    ).toBe(true);
  });

  it('shows a line once that comes twice', () => {
    const first = addPage(FIRST_PAGE, [dated('b', 2000), bare('x')]);
    const ids = addPage(first, [bare('x'), dated('a', 1000)]).lines.map((line) =>
      line.readable ? line.head.id : line.id,
    );
    expect(ids).toEqual(['b', 'x', 'a']);
  });

  it('does not ask for ever after a page without any date', () => {
    const pages = addPage(
      FIRST_PAGE,
      fullPage((index) => bare(`x${index}`)),
    );
    expect(pages.hasOlder).toBe(false);
  });
});
